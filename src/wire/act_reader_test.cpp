#include "wire/act_reader.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace fettle {
namespace {

using ::testing::ElementsAre;

const std::string kHead = R"("id":"00112233445566778899aabbccddeeff","device":"d-1","sequence":17,"made_at":"2031-05-04T10:12:05+02:00","who":"JB",)";
const std::string kReading =
    R"("part":"bore-2","station":"mid","direction":"pin","text":"28 ↻","unit":"div","setting":"bg-1","round":"1","order":7)";

std::string body_of(const std::string& act) { return R"({"acts":[{)" + kHead + act + "}]}"; }

std::vector<std::string> told(const std::string& body) {
  const auto acts = read_acts(body);
  std::vector<std::string> out;
  if (acts.ok()) return out;
  for (const Problem& each : acts.problems()) {
    std::string key;
    for (const Argument& argument : each.arguments) {
      if (argument.name == "key") key = std::get<Verbatim>(argument.value).text;
    }
    out.push_back(each.code + " " + key);
  }
  return out;
}

TEST(ActReader, EveryActIsRead) {
  const std::vector<std::string> acts = {
      R"("act":"reading",)" + kReading +
          R"(,"repeat":2,"flag":"deposit","note":"carbon","supersedes":"e","why":"dirt","read_by":"MW","temperature":"19.5 °C")",
      R"("act":"setting","setting":"bg-1","gauge":"bg","master":"mic","wanted":"78 mm","set":"3.0709 in","zeros":["0","1 ↺"],"master_temperature":"20 °C","part_temperature":"20 °C","locked_on":"p","afresh_of":"bg-0")",
      R"("act":"gauge","gauge":"bg","preset":"p","division":"0.001 mm","turn":"0.2 mm","pressed_in":"clockwise","reads":"3.0001 in","on_standard":"3 in","marked":"78 mm")",
      R"("act":"zero","setting":"bg-1","round":"1","after_order":24,"shows":"2 ↺","closes":true)",
      R"("act":"temperatures","setting":"bg-1","part":"19 °C","master":"19 °C")",
      R"("act":"limit","limit":"l","kind":"k","definition":"d","role":"service","side":"at-most","bound":"78.1 mm","book":"b","edition":"e","page":"p")",
      R"("act":"finding","part":"bore-1","what":"score","weight":"needs-test","where":"top","depth":"0.09 mm")",
      R"("act":"take-verdict","part":"bore-1","limit":"l","word":"beyond","why":"seen")",
      R"("act":"withdraw","event":"e","why":"wrong")"};
  for (std::size_t i = 0; i < acts.size(); ++i) {
    const auto read = read_acts(body_of(acts[i]));
    ASSERT_TRUE(read.ok()) << acts[i] << " " << told(body_of(acts[i])).front();
    EXPECT_EQ(read.value().at(0).body.index(), i);
    EXPECT_EQ(read.value().at(0).head.sequence, 17);
  }
  const auto reading = read_acts(body_of(acts.front())).value();
  const auto& act = std::get<ReadingAct>(reading.at(0).body);
  EXPECT_EQ(act.text, "28 ↻");
  EXPECT_EQ(act.unit, UnitId::division);
  EXPECT_EQ(act.order, 7);
  EXPECT_EQ(act.flag, ReadingFlag::deposit);
  EXPECT_EQ(act.read_by, "MW");
}

TEST(ActReader, EverythingWrongIsToldAtOnceAndNamesItsAct) {
  EXPECT_THAT(told(R"({"acts":[{)" + kHead + R"("act":"guess"},{)" + kHead + R"("act":"withdraw","event":1,"more":2}]})"),
              ElementsAre("wire.unknown_act acts[0].act", "wire.wrong_kind acts[1].event", "wire.missing_key acts[1].why", "wire.unknown_key acts[1].more"));
  EXPECT_THAT(told(R"({"acts":[{"id":"E1","device":"d","sequence":1,"made_at":"","who":"","act":"withdraw","event":"e","why":"w"}]})"),
              ElementsAre("wire.not_an_id acts[0].id"));
  EXPECT_THAT(told(R"({"acts":[{"id":"E1","device":"d","sequence":1,"made_at":"","who":"","act":"zero","setting":"s","round":"1","after_order":-1,"shows":"0"}]})"),
              ElementsAre("wire.not_an_id acts[0].id", "wire.missing_key acts[0].closes"));
  EXPECT_THAT(told(body_of(R"("act":"reading","part":"bore-2","station":"mid","direction":"pin","text":"1","setting":"s","round":"1","order":0)")),
              ElementsAre("wire.out_of_range acts[0].order"));
  EXPECT_THAT(told(body_of(R"("act":"reading","part":"b","station":"m","direction":"p","text":"1","unit":"furlong","setting":"s","round":"1","order":1)")),
              ElementsAre("wire.unknown_word acts[0].unit"));
  EXPECT_THAT(told(R"({"acts":[]})"), ElementsAre("wire.no_acts acts"));
  EXPECT_THAT(told(R"({"acts":{}})"), ElementsAre("wire.wrong_kind acts"));
  EXPECT_THAT(told(R"({"acts":[7]})"), ElementsAre("wire.wrong_kind acts[0]"));
  EXPECT_THAT(told("{}"), ElementsAre("wire.missing_key acts"));
  std::string many = R"({"acts":[)";
  for (std::int64_t i = 0; i <= kMostActs; ++i) many += (i > 0 ? "," : "") + std::string("{}");
  EXPECT_THAT(told(many + "]}"), ElementsAre("wire.too_many_acts acts"));
}

TEST(ActReader, AReadingWithoutItsHeadAsksWhatItMeans) {
  const auto understood = read_understood("{" + kReading + "}");
  ASSERT_TRUE(understood.ok());
  EXPECT_EQ(understood.value().station, "mid");
  EXPECT_FALSE(read_understood("{" + kHead + kReading + "}").ok()) << "no ids";
  EXPECT_FALSE(read_understood("7").ok());
}

TEST(ActReader, ANewEngineIsRead) {
  const std::string groups = R"("groups":[{"kind":"cylinder-bore","count":4}])";
  const std::string body = "{" + kHead + R"("name":"Linnet 4","engine":"four","shown_unit":"in","decimal_mark":null,)" + groups + "}";
  const auto act = read_new_engine(body);
  ASSERT_TRUE(act.ok());
  EXPECT_EQ(act.value().shown_unit, UnitId::inch);
  EXPECT_FALSE(act.value().decimal_mark);
  EXPECT_EQ(act.value().groups.at(0).count, 4);
  EXPECT_FALSE(read_new_engine("{" + kHead + R"("name":"Linnet 4","engine":"four","shown_unit":"km",)" + groups + "}").ok());
  EXPECT_FALSE(read_new_engine("[]").ok());
  const auto nobody = read_new_engine(R"({"id":"E1","device":"d-1","sequence":1,"made_at":"now","who":"","name":1,"engine":"four","shown_unit":"in",)" + groups + "}");
  std::vector<std::string> codes;
  for (const Problem& each : nobody.problems()) codes.push_back(each.code);
  EXPECT_THAT(codes, ElementsAre("wire.not_an_id", "wire.not_a_name", "wire.not_a_moment", "wire.wrong_kind")) << "all at once";
}

}  // namespace
}  // namespace fettle
