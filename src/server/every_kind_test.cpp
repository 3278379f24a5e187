#include <gtest/gtest.h>

#include <set>

#include "app/round_hands.h"
#include "catalogue/catalogue.h"
#include "server/page_on_bench.h"
#include "units/print.h"

namespace fettle {
namespace {

std::string quoted(const std::string& text) { return "\"" + text + "\""; }

/// A job with one part of the kind, and the parts that it is made of.
class JobOfKind {
 public:
  explicit JobOfKind(const Kind& kind) {
    toml_ = "[job]\nid = \"k\"\nname = \"Invented\"\ndecimal_mark = \"point\"\nshown_unit = \"mm\"\nremark = \"Invented.\"\n";
    add(kind, "x");
  }
  [[nodiscard]] FolderTexts texts() const { return {"k", toml_, "part,station,direction,reading,unit,setting\n"}; }

 private:
  void add(const Kind& kind, const std::string& id) {
    std::string members;
    for (const KindMember& each : kind.members) {
      const std::string member = id + "-" + each.role;
      add(*catalogue().kind(each.kinds.front()), member);
      members += (members.empty() ? "" : ", ") + each.role + " = " + quoted(member);
    }
    toml_ += "\n[[part]]\nid = " + quoted(id) + "\nkind = " + quoted(kind.id) + "\nposition = \"" + std::to_string(++parts_) + "\"\n";
    toml_ += members.empty() ? "step = \"standard\"\ncondition = \"worn\"\n" : "members = { " + members + " }\n";
  }

  std::string toml_;
  int parts_ = 0;
};

/// What a sound part might show on such a gauge.
std::string plausible(const GaugePreset& preset, Dimension quantity) {
  switch (quantity) {
    case Dimension::length:
      if (preset.range_from) return (preset.range_from->millimetres() < 1.0 ? "2.51" : in_unit(preset.range_from->ratio() + Length::counts(30'000'000).ratio(), UnitId::millimetre, 2)) + " mm";
      return preset.range_to && preset.range_to->millimetres() < 20.0 ? "8.02 mm" : preset.touches ? "60.02 mm" : "0.12 mm";
    case Dimension::angle: return "45 °";
    case Dimension::force: return "310 N";
    case Dimension::pressure: return "9.5 bar";
    case Dimension::volume: return "42.5 cm³";
    case Dimension::mass: return "412.3 g";
    case Dimension::temperature:
    case Dimension::torque:
    case Dimension::time:
    case Dimension::count:
    case Dimension::divisions: break;
  }
  return "";
}

struct RoundOfKind : PageOnBench {
  explicit RoundOfKind(const Kind& of) : kind(of) { EXPECT_TRUE(take(JobOfKind(of).texts()).ok()) << of.id; }

  [[nodiscard]] std::string page(Language language = Language::english) { return get("/api/jobs/k/rounds/x", {}, language); }
  HttpResponse act(const std::string& body) {
    ++sequence;
    return ask("POST", "/api/jobs/k/acts", {}, Language::english,
               R"({"acts":[{"id":")" + std::string(31 - std::to_string(sequence).size(), '0') + std::to_string(sequence) + R"(a","device":"d-1","sequence":)" + std::to_string(sequence) +
                   R"(,"made_at":"2031-05-04T10:12:05+02:00","who":"JB",)" + body + "}]}");
  }
  /// The usual gauge for a place, taken to hand.
  std::string in_hand(const GaugePreset& preset) {
    if (taken.insert(preset.id).second) {
      EXPECT_EQ(act(R"("act":"gauge","gauge":)" + quoted(preset.id) + R"(,"preset":)" + quoted(preset.id)).status, 200) << preset.id;
      const HttpResponse set = act(R"("act":"setting","setting":")" + preset.id + R"(-1","gauge":)" + quoted(preset.id));
      EXPECT_EQ(set.status, 200) << set.body;
    }
    return preset.id + "-1";
  }

  const Kind& kind;
  std::set<std::string> taken;
  int sequence = 0;
};

/// A direct gauge that the kind names for the place; comparison gauges are set on a master, which other tests do.
const GaugePreset* to_take(const PartOnBench& part, std::size_t cell) {
  for (const GaugePreset* each : presets_for(catalogue(), part, cell)) {
    if (sort_of(*each) == GaugeSort::direct) return each;
  }
  return nullptr;
}

PartOnBench bare(const Kind& kind) {
  PartOnBench out{};
  out.part.id = "x";
  out.part.kind = kind.id;
  out.feature = kind.feature;
  out.layout = kind.layout;
  return out;
}

bool has(const std::string& text, const std::string& piece) { return text.find(piece) != std::string::npos; }

/// What would be shown where a text is missing: a key in brackets, an argument in braces.
void expect_said(const std::string& page, const std::string& what) {
  EXPECT_FALSE(has(page, "\"[")) << what << "\n" << page.substr(0, 3000);
  for (const char* lost : {"{position}", "{kind}", "{unit}", "[station", "[direction", "[part_name", "[how", "[gauge_preset"}) EXPECT_FALSE(has(page, lost)) << what << " " << lost;
}

TEST(EveryKind, IsReadOnThePageFromNoGaugeToTheLastPlace) {
  std::size_t places = 0;
  for (const Kind& kind : catalogue().kinds) {
    RoundOfKind round(kind);
    const PartOnBench part = bare(kind);
    for (const Language language : {Language::english, Language::german}) {
      const std::string page = round.page(language);
      expect_said(page, kind.id);
      if (part.layout.cells() == 0) {
        EXPECT_TRUE(has(page, R"("places": [])")) << kind.id;
        EXPECT_FALSE(has(page, R"("members": [])")) << kind.id << ": an assembly without places names its parts";
        continue;
      }
      EXPECT_FALSE(has(page, R"("suits": [])")) << kind.id << ": a place for which no gauge suits";
      EXPECT_FALSE(has(page, R"("how": [])")) << kind.id;
      EXPECT_FALSE(has(page, R"("conditions": [])")) << kind.id;
      EXPECT_TRUE(has(page, "<svg")) << kind.id;
    }
    for (std::size_t cell = 0; cell < part.layout.cells(); ++cell) {
      if (!part.layout.there(cell)) continue;
      ++places;
      const std::string& station = part.layout.stations[cell / part.layout.directions.size()].id;
      const std::string& direction = part.layout.directions[cell % part.layout.directions.size()].id;
      const std::string where = kind.id + " " + station + "/" + direction;
      const GaugePreset* preset = to_take(part, cell);
      if (preset == nullptr) {
        ADD_FAILURE() << where << ": nothing to take to hand";
        continue;
      }
      const std::string setting = round.in_hand(*preset);
      const std::string text = plausible(*preset, part.layout.quantity(cell));
      const std::string reading = R"("part":"x","station":)" + quoted(station) + R"(,"direction":)" + quoted(direction) + R"(,"text":)" + quoted(text) + R"(,"setting":)" +
                                  quoted(setting) + R"(,"round":"1","order":)" + std::to_string(cell + 1);
      const std::string understood = round.ask("POST", "/api/jobs/k/understood", {}, Language::english, "{" + reading + "}").body;
      EXPECT_TRUE(has(understood, R"("problems": [])")) << where << " " << text << " " << understood;
      EXPECT_EQ(round.act(R"("act":"reading",)" + reading).status, 200) << where;
    }
    if (part.layout.cells() == 0) continue;
    const std::string read = round.page();
    EXPECT_FALSE(has(read, R"("state": "to-do")")) << kind.id;
    EXPECT_TRUE(has(read, R"("next": null)")) << kind.id;
    EXPECT_FALSE(has(read, R"("hand": null)")) << kind.id << ": a place that was read, and the page does not know with what";
    EXPECT_FALSE(has(read, R"("said": null)")) << kind.id << ": a reading of which no size came";
  }
  EXPECT_GT(places, 300U);
}

/// Each place lights with the gauge that suits it, in its own unit; what is of another dimension is refused in a sentence.
TEST(EveryKind, APartOfSeveralQuantitiesIsReadWithSeveralGauges) {
  RoundOfKind round(*catalogue().kind("valve-spring"));
  const auto gauge = [&](const std::string& id) { return round.in_hand(*catalogue().gauge_preset(id)); };
  EXPECT_TRUE(has(round.page(), "\"spring tester\"")) << "what suits the force, by name";
  EXPECT_EQ(gauge("caliper"), "caliper-1");
  gauge("spring-tester");
  const std::string page = round.page();
  EXPECT_TRUE(has(page, R"("unit": "mm")"));
  EXPECT_TRUE(has(page, R"("unit": null)")) << "whether the tester shows newtons or kilograms was not said";
  EXPECT_TRUE(has(page, R"("hand": null)")) << "out of square: a feeler, and there is none yet";
  const auto asked = [&](const std::string& station, const std::string& text, const std::string& unit, const std::string& setting) {
    return round.ask("POST", "/api/jobs/k/understood", {}, Language::english,
                     R"({"part":"x","station":")" + station + R"(","direction":"reading","text":")" + text + "\"," + (unit.empty() ? "" : R"("unit":")" + unit + "\",") +
                         R"("setting":")" + setting + R"(","round":"1","order":1})").body;
  };
  EXPECT_TRUE(has(asked("fitted-force", "310", "N", "spring-tester-1"), R"("problems": [])"));
  EXPECT_TRUE(has(asked("fitted-force", "31.6", "kgf", "spring-tester-1"), R"("problems": [])"));
  EXPECT_FALSE(has(asked("fitted-force", "310", "", "spring-tester-1"), R"("problems": [])")) << "newtons or pounds: nobody guesses";
  EXPECT_TRUE(has(asked("fitted-force", "31 mm", "", "spring-tester-1"), "measures length, but force is wanted here"));
  EXPECT_TRUE(has(asked("free-length", "310 N", "", "caliper-1"), "measures force, but length is wanted here"));
  EXPECT_TRUE(has(asked("fitted-force", "310", "N", "caliper-1"), "gauging.measures_other")) << "a caliper reads no force";
}

/// A height below its datum is a figure like any other.
TEST(EveryKind, AFigureMayHaveASign) {
  RoundOfKind round(*catalogue().kind("clock-face"));
  round.in_hand(*catalogue().gauge_preset("dial-indicator-0-01-mm"));
  EXPECT_TRUE(has(round.page(), R"("both_ways": true)"));
  const HttpResponse below = round.act(R"("act":"reading","part":"x","station":"clock-3","direction":"reading","text":"-0.05","unit":"mm","setting":"dial-indicator-0-01-mm-1","round":"1","order":1)");
  EXPECT_EQ(below.status, 200) << below.body;
  EXPECT_TRUE(has(round.page(), "\"said\": \"-0.05")) << round.page().substr(0, 4000);
  RoundOfKind spring(*catalogue().kind("valve-spring"));
  spring.in_hand(*catalogue().gauge_preset("caliper"));
  EXPECT_FALSE(has(spring.page(), R"("both_ways": true)")) << "a length on a caliper has no sign";
}

/// What was chosen for a place reads it, also where another gauge is usual there; the places beside it keep theirs.
TEST(EveryKind, AGaugeThatWasChosenForAPlaceReadsItThere) {
  RoundOfKind round(*catalogue().kind("valve-spring"));
  round.in_hand(*catalogue().gauge_preset("feeler-gauge"));
  round.in_hand(*catalogue().gauge_preset("caliper"));
  const auto hand_at = [&](const std::string& station, const std::map<std::string, std::string>& query) {
    const std::string page = round.get("/api/jobs/k/rounds/x", query);
    const std::size_t from = page.find("\"station\": \"" + station + "\"");
    const std::size_t at = page.find("\"hand\": ", from);
    return page.substr(at, page.find('\n', at) - at);
  };
  const std::string usual = hand_at("out-of-square", {});
  EXPECT_NE(usual, hand_at("free-length", {}));
  EXPECT_EQ(hand_at("out-of-square", {{"setting", "caliper-1"}}), usual) << "a caliper is not for it, and was not chosen for it";
  EXPECT_EQ(hand_at("out-of-square", {{"setting", "caliper-1"}, {"place", "out-of-square/reading"}}), hand_at("free-length", {}));
}

}  // namespace
}  // namespace fettle
