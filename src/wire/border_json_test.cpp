#include "wire/border_json.h"

#include <gtest/gtest.h>

namespace fettle {
namespace {

TEST(BorderJson, SaysWhatTheContractSays) {
  EXPECT_EQ(refusal_json({{"server.token", "no \"token\"", "ask"}}),
            R"({"format":"fettle-refusal","version":1,"problems":[{"code":"server.token","what":"no \"token\"","do":"ask"}]})");
  EXPECT_EQ(hello_json({"0.1.0", "t", true, false, NamedDevice{"p-1", "phone"}, "shop.fettle"}),
            R"({"format":"fettle-hello","version":1,"program":"0.1.0","token":"t","secure":true,"loopback":false,"device":{"id":"p-1","name":"phone"},"record":"shop.fettle"})");
  EXPECT_EQ(present_json(std::nullopt), R"({"format":"fettle-present","version":1,"held":true,"held_by":null})");
  EXPECT_EQ(present_json(PresentLine{"d-1", "JB", "bore-1", "round"}),
            R"({"format":"fettle-present","version":1,"held":false,"held_by":{"device":"d-1","who":"JB"}})");
  EXPECT_EQ(present_event_json("tern", {{"d-1", "JB", "bore-1", "round"}}),
            R"({"job":"tern","people":[{"device":"d-1","who":"JB","part":"bore-1","holds":"round"}]})");
  EXPECT_EQ(devices_json({{"p-1", "phone", "2031-05-04T08:12:00.000000Z", std::nullopt, true}}),
            R"({"format":"fettle-devices","version":1,"devices":[{"id":"p-1","name":"phone","paired_at":"2031-05-04T08:12:00.000000Z","last_seen":null,"revoked":true}]})");
  EXPECT_EQ(ports_json({{"g2", "G2", true, NamedDevice{"d-1", "phone"}}}, {{7, "g2", "+0.071 mm", "2031-05-04T08:12:00.000000Z", ReadByTemplate{"+0.071", "mm"}}}, std::nullopt),
            R"({"format":"fettle-ports","version":1,"ports":[{"id":"g2","name":"G2","there":true,"taken_by":{"device":"d-1","name":"phone"}}],)"
            R"("waiting":[{"number":7,"port":"g2","text":"+0.071 mm","received_at":"2031-05-04T08:12:00.000000Z","reading":{"text":"+0.071","unit":"mm"}}],"not_kept":null})");
  EXPECT_EQ(ports_json({}, {}, NotKept{2, "lost"}), R"({"format":"fettle-ports","version":1,"ports":[],"waiting":[],"not_kept":{"count":2,"sentence":"lost"}})");
}

TEST(BorderJson, ALineOfAGaugeIsOneLineWhateverItHolds) {
  const std::string line = gauge_line_event_json({1, "g2", std::string("a\n\xff\0b", 5), {}, std::nullopt});
  EXPECT_EQ(line, "{\"number\":1,\"port\":\"g2\",\"text\":\"a\\n\xEF\xBF\xBD\\u0000" "b\",\"reading\":null}");
}

TEST(BorderJson, ReadsWhatADeviceAsksAndNothingElse) {
  EXPECT_EQ(read_asked_pair(R"({"code":"c","name":"n"})").value().name, "n");
  EXPECT_EQ(read_asked_device(R"({"device":"p-1"})").value(), "p-1");
  EXPECT_EQ(read_asked_present(R"({"device":"d","who":"JB"})").value().part, std::nullopt);
  EXPECT_EQ(read_asked_done(R"({"number":7,"device":"d","job":"j","act":"a"})").value().number, 7);
  EXPECT_EQ(read_asked_present(R"({"device":"","who":"J\u0007B"})").problems().size(), 2U) << "both names are none";
  EXPECT_EQ(read_asked_present(R"({"device":"d","who":""})").problems().front().code, "wire.not_a_name");
  EXPECT_EQ(read_asked_pair(R"({"code":"c"})").problems().front().code, "wire.missing_key");
  EXPECT_EQ(read_asked_pair(R"({"code":"c","name":"n","more":1})").problems().front().code, "wire.unknown_key");
  EXPECT_EQ(read_asked_pair(R"({"code":1,"name":"n"})").problems().front().code, "wire.wrong_kind");
  EXPECT_EQ(read_asked_port("").problems().front().code, "wire.not_json");
  EXPECT_EQ(read_asked_port("[]").problems().front().code, "wire.wrong_kind");
  EXPECT_EQ(read_asked_port(R"({"port":"g2","port":"g3","device":"d"})").problems().front().code, "wire.key_twice");
}

}  // namespace
}  // namespace fettle
