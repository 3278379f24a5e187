// Every kind of the catalogue as a sceptic meets it: read whole, read at its first place only, and read in what it is not measured in.
#include <gtest/gtest.h>

#include <algorithm>
#include <map>

#include "app/kinds_on_bench.h"
#include "catalogue/catalogue.h"
#include "catalogue/kind_definitions.h"
#include "form/reading_minimum.h"
#include "text/sentence.h"

namespace fettle {
namespace {

/// What places of formulas read, so that they have a figure; the others read what their quantity does.
const std::map<std::string, std::string>& plausible_by_station() {
  static const std::map<std::string, std::string> kReadings = {
      {"port-depth", "26.5 mm"},  {"deck", "0.1 mm"},           {"stroke", "50.6 mm"},       {"rod-length", "100 mm"},     {"seat-angle", "45 °"},
      {"free-length", "50 mm"},   {"fitted-length", "40 mm"},   {"fitted-force", "250 N"},   {"open-length", "30 mm"},     {"open-force", "500 N"},
      {"supply", "5.5 bar"},      {"held", "4.4 bar"},          {"start-pressure", "0.5 bar"}, {"end-pressure", "0.44 bar"}, {"swing", "0.10 mm"},
      {"port-height", "24.1 mm"}};
  return kReadings;
}

struct Plausible {
  std::string reading;
  std::string gauge;
};

std::string gauge_of(Dimension quantity, Feature feature) {
  switch (quantity) {
    case Dimension::length:
      return feature == Feature::inside ? "inside-micrometer-mm" : feature == Feature::outside ? "outside-micrometer-50-75-mm" : "caliper";
    case Dimension::angle: return "protractor";
    case Dimension::force: return "spring-tester";
    case Dimension::pressure: return "pressure-gauge";
    case Dimension::volume: return "burette";
    case Dimension::mass: return "scales";
    case Dimension::temperature:
    case Dimension::torque:
    case Dimension::time:
    case Dimension::count:
    case Dimension::divisions: break;
  }
  ADD_FAILURE() << "a place of a kind that no gauge of this test reads";
  return {};
}

std::string usual_reading(Dimension quantity, Feature feature, std::size_t cell) {
  const std::string step = std::to_string(10 + cell % 40);  // every place another
  switch (quantity) {
    case Dimension::length: return (feature == Feature::figure ? "20." : "70.") + step + " mm";
    case Dimension::angle: return step + " °";
    case Dimension::force: return "2" + step + " N";
    case Dimension::pressure: return "8." + step + " bar";
    case Dimension::volume: return step + ".5 cm³";
    case Dimension::mass: return "4" + step + ".0 g";
    case Dimension::temperature:
    case Dimension::torque:
    case Dimension::time:
    case Dimension::count:
    case Dimension::divisions: break;
  }
  return {};
}

Plausible plausible(const Kind& kind, std::size_t cell) {
  const Station& station = kind.layout.stations[cell / kind.layout.directions.size()];
  const Dimension quantity = kind.layout.quantity(cell);
  const auto own = plausible_by_station().find(station.id);
  return {own == plausible_by_station().end() ? usual_reading(quantity, kind.feature, cell) : own->second, gauge_of(quantity, kind.feature)};
}

std::string bound_of_dimension(ResultDimension dimension) {
  switch (dimension) {
    case ResultDimension::length: return "bound = \"90 mm\"\n";
    case ResultDimension::ratio: return "bound = \"1 mm\"\nper = \"1 mm\"\n";
    case ResultDimension::number: return "bound = \"90\"\n";
    case ResultDimension::force: return "bound = \"900 N\"\n";
    case ResultDimension::force_per_length: return "bound = \"900 N\"\nper = \"1 mm\"\n";
    case ResultDimension::volume: return "bound = \"900 cm³\"\n";
    case ResultDimension::angle: return "bound = \"359 °\"\n";
    case ResultDimension::mass: return "bound = \"900 g\"\n";
    case ResultDimension::pressure: return "bound = \"90 bar\"\n";
  }
  return {};
}

/// A limit for every definition that can be judged on the kind: each figure is below it, so whatever is judged is within.
std::string limits_of(const Kind& kind) {
  std::string out;
  for (const Definition* each : definitions_for(kind, catalogue().definitions).usual) {
    const bool size = each->uses(Input::standard) || each->uses(Input::nominal);
    if (each->id == "size-3") continue;  // the other end: a service limit may not stand on the side of wear there
    out += "[[limit]]\nid = \"" + each->id + "\"\ndefinition = \"" + each->id + "\"\nkind = \"" + kind.id + "\"\nrole = \"service\"\nside = \"at-most\"\n" +
           bound_of_dimension(each->dimension) + (size ? "standard = \"70 mm\"\n" : "") + "book = \"b\"\npage = \"1\"\n";
  }
  return out;
}

struct KindOnBench {
  PartsRead job;
  std::vector<std::size_t> own_rows;  ///< of the part itself, not of its members
};

/// The part "it", with its members if it is an assembly, every counted place read.
KindOnBench whole(const Kind& kind, const std::string& id = "it") {
  KindOnBench out{{}, {}};
  std::string members;
  for (const KindMember& member : kind.members) {
    const std::string name = id + "-" + member.role;
    KindOnBench made = whole(*catalogue().kind(member.kinds.front()), name);
    out.job.parts += made.job.parts;
    out.job.rows.insert(out.job.rows.end(), made.job.rows.begin(), made.job.rows.end());
    members += (members.empty() ? "" : ", ") + member.role + " = \"" + name + "\"";
  }
  out.job.parts += part(id, kind.id, members);
  for (std::size_t cell = 0; cell < kind.layout.cells(); ++cell) {
    const Station& station = kind.layout.stations[cell / kind.layout.directions.size()];
    const Direction& direction = kind.layout.directions[cell % kind.layout.directions.size()];
    if (!station.counted || !direction.counted) continue;
    const Plausible read = plausible(kind, cell);
    out.own_rows.push_back(out.job.rows.size());
    out.job.rows.push_back({id, station.id, direction.id, read.reading, read.gauge});
  }
  if (id == "it") out.job.parts += limits_of(kind);
  return out;
}

std::string said(const Problem& problem, Language language) { return sentence(problem, language) + " " + sentence(Message{"problem." + problem.code + ".do", problem.arguments}, language); }

std::vector<const Verdict*> verdicts_of_it(const JudgedJob& job) {
  std::vector<const Verdict*> out;
  for (const Verdict& each : job.judgement.verdicts) {
    if (each.part == "it") out.push_back(&each);
  }
  return out;
}

/// Never silent: no figure without what is missing, no verdict without a figure or a reason, said in both languages.
void expect_spoken(const Kind& kind, const JudgedJob& job) {
  for (const AsMeasured& each : job.measured) {
    EXPECT_NE(each.value.has_value(), !each.missing.empty()) << kind.id << " " << each.definition;
  }
  for (const Verdict* each : verdicts_of_it(job)) {
    if (each->word != VerdictWord::not_judged) {
      EXPECT_TRUE(each->as_measured) << kind.id << " " << each->limit;
      continue;
    }
    EXPECT_FALSE(each->reasons.empty()) << kind.id << " " << each->limit;
    for (const Problem& reason : each->reasons) {
      for (const Language language : {Language::english, Language::german}) EXPECT_GT(said(reason, language).size(), 20U) << kind.id << " " << reason.code;
    }
  }
}

const PartOnBench& it(const JudgedJob& job) { return *std::find_if(job.parts.begin(), job.parts.end(), [](const auto& each) { return each.part.id == "it"; }); }

/// How many of the places that a definition asks for were not read on the part.
std::size_t unread(const std::string& definition, const JudgedJob& job) {
  const PartOnBench& part = it(job);
  PartGrid grid{part.feature, part.layout, {}, {}};
  for (const GroupEstimate& group : job.groups) {
    for (const PartEstimate& each : group.parts) {
      if (each.part != "it") continue;
      for (const auto& place : each.places) grid.read.push_back(place.has_value());
    }
  }
  std::size_t out = 0;
  for (const std::size_t cell : asked_cells(*catalogue().definition(definition), grid)) out += grid.read[cell] ? 0U : 1U;
  return out;
}

/// A kind read at some of its places: what is not said to be missing must not be passed.
void expect_nothing_passed_unread(const Kind& kind, const PartsRead& of) {
  const JudgedJob job = judged(of);
  expect_spoken(kind, job);
  for (const Verdict* each : verdicts_of_it(job)) {
    EXPECT_TRUE(each->word != VerdictWord::within || unread(each->limit, job) == 0) << each->limit << " is passed with places unread";
  }
}

TEST(KindsByPlaces, ReadWholeEveryDefinitionIsJudged) {
  std::size_t judged_figures = 0;
  for (const Kind& kind : catalogue().kinds) {
    SCOPED_TRACE(kind.id);
    const JudgedJob job = judged(whole(kind).job);
    expect_spoken(kind, job);
    for (const Verdict* each : verdicts_of_it(job)) {
      // What has to be written down beside the readings is said, and nothing else is left open.
      const bool lengths = !each->reasons.empty() && std::all_of(each->reasons.begin(), each->reasons.end(), [](const Problem& one) { return one.code == "form.needs_depths"; });
      EXPECT_TRUE(each->word != VerdictWord::not_judged || lengths) << each->limit << ": " << (each->reasons.empty() ? "" : said(each->reasons[0], Language::english));
      if (each->as_measured) ++judged_figures;
    }
  }
  EXPECT_GT(judged_figures, 300U);
}

TEST(KindsByPlaces, HalfFilledNothingIsPassedThatRestsOnMore) {
  for (const Kind& kind : catalogue().kinds) {
    SCOPED_TRACE(kind.id);
    const KindOnBench all = whole(kind);
    PartsRead first = all.job;
    first.rows.resize(1);
    expect_nothing_passed_unread(kind, first);
    PartsRead half = all.job;  // every second place, beginning with the second
    half.rows.clear();
    for (std::size_t row = 1; row < all.job.rows.size(); row += 2) half.rows.push_back(all.job.rows[row]);
    if (half.rows.empty()) continue;
    expect_nothing_passed_unread(kind, half);
    PartsRead none = all.job;
    none.rows.resize(0);
    for (const Verdict* each : verdicts_of_it(judged(none))) {
      EXPECT_EQ(each->word, VerdictWord::not_judged) << each->limit;
      EXPECT_FALSE(each->reasons.empty()) << each->limit;
    }
  }
}

/// What import and judging say of it; judging only where the import has nothing to say.
Problems problems_of(const PartsRead& of) {
  const Imported folder = imported(of);
  if (!folder.problems.empty()) return folder.problems;
  const Result<JudgedJob> job = judge_job(fold(folder.events).job, {{}, usual_accuracy()});
  return job.ok() ? Problems() : job.problems();
}

void expect_refused_by_place(const PartsRead& of, std::size_t row, const std::string& what) {
  const Problems problems = problems_of(of);
  ASSERT_FALSE(problems.empty()) << what << ": nothing was said";
  const bool named = std::any_of(problems.begin(), problems.end(), [&](const Problem& each) {
    const bool by_line = each.place.file.ends_with("readings.csv") && each.place.line == static_cast<int>(row) + 2;
    return by_line || said(each, Language::english).find("\"" + of.rows[row].part + "\"") != std::string::npos;
  });
  EXPECT_TRUE(named) << what << ": " << problems.front().code << " " << said(problems.front(), Language::english);
}

TEST(KindsByPlaces, AWrongDimensionIsRefusedWithItsPlace) {
  for (const Kind& kind : catalogue().kinds) {
    SCOPED_TRACE(kind.id);
    const KindOnBench all = whole(kind);
    const std::vector<std::size_t> rows = all.own_rows.empty() ? std::vector<std::size_t>{0} : std::vector<std::size_t>{all.own_rows.front(), all.own_rows.back()};
    for (const std::size_t row : rows) {
      const bool force = all.job.rows[row].gauge == "spring-tester";
      PartsRead of = all.job;
      of.rows[row].reading = force ? "12 mm" : "12 N";
      expect_refused_by_place(of, row, "by the gauge of the place");
      of.rows[row].gauge = force ? "caliper" : "spring-tester";
      expect_refused_by_place(of, row, "by a gauge that reads it");
    }
  }
}

}  // namespace
}  // namespace fettle
