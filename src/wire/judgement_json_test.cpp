#include <gtest/gtest.h>

#include "form/shape_group.h"
#include "wire/json_text.h"

namespace fettle {
namespace {

// The expected texts are written by hand from the schemas; figures are worked out in the comments.

TypedQuantity typed(const std::string& text) {
  return read_quantity(text, {{}, {}, DecimalMark::point, {}, false, {}}, {}).value();
}

TEST(ProblemsJson, EveryKindOfArgumentHasItsForm) {
  const std::vector<Message> inner = {Message{"reason.too_close", {verbatim("limit", "bore-service")}}};
  const Problem full{"entry.no_unit",
                     {"readings.csv", 4, 21},
                     {verbatim("text", "84,02 \"ü\""), count("times", -3), decimal("figure", "-0.5", "mm"),
                      word("kind", "kind.cylinder-bore"), list("needs", inner)}};
  const Problem bare{"job.level_range", {}, {}};
  EXPECT_EQ(problems_json({full, bare}), R"({
  "format": "fettle-problems",
  "version": 1,
  "problems": [
    {
      "code": "entry.no_unit",
      "place": {
        "file": "readings.csv",
        "line": 4,
        "column": 21
      },
      "arguments": {
        "text": "84,02 \"ü\"",
        "times": -3,
        "figure": {
          "value": "-0.5",
          "unit": "mm"
        },
        "kind": {
          "word": "kind.cylinder-bore"
        },
        "needs": [
          {
            "key": "reason.too_close",
            "arguments": {
              "limit": "bore-service"
            }
          }
        ]
      }
    },
    {
      "code": "job.level_range",
      "place": {},
      "arguments": {}
    }
  ]
}
)");
}

TEST(TypedQuantityJson, KeepsTheTextAndTheExactValue) {
  // 2-1/32 in = 65/32 in = 65 x 25.4 / 32 mm = 51.59375 mm.
  EXPECT_EQ(typed_quantity_json(typed("2-1/32 in")), R"({
  "format": "fettle-typed-quantity",
  "version": 1,
  "text": "2-1/32 in",
  "dimension": "length",
  "unit": "in",
  "numerator": "65",
  "denominator": "32",
  "decimals": 0,
  "mm": "51.5937500"
}
)");
}

TEST(TypedQuantityJson, OnADialTheSideStandsBesideTheSign) {
  const std::string written = typed_quantity_json(typed("31.5 acw"));
  // 31.5 = 63/2, anticlockwise counts negative.
  EXPECT_NE(written.find(R"("numerator": "-63",
  "denominator": "2",
  "decimals": 1,
  "needle": "anticlockwise"
})"),
            std::string::npos)
      << written;
  EXPECT_EQ(written.find("\"mm\""), std::string::npos);  // divisions are no length
}

TEST(DefinitionsJson, SaysWhatADefinitionNeeds) {
  const Definition definition{
      "tap-7", Family::taper, ResultDimension::ratio, {Feature::outside}, {}, {2, 1}, false, {"profile"}, {}, "o"};
  EXPECT_EQ(definitions_json({definition}), R"({
  "format": "fettle-definitions",
  "version": 1,
  "definitions": [
    {
      "id": "tap-7",
      "family": "taper",
      "judged": false,
      "needs": [
        "profile"
      ],
      "origin": "o",
      "applies_to": [
        "outside"
      ]
    }
  ]
}
)");
}

/// One bore with one place, read once, against one limit.
struct OneBore {
  Job job{};
  std::vector<PartOnBench> parts;
  SizeSet sizes{};
  std::vector<GroupEstimate> groups;
  std::vector<AsMeasured> measured;
  std::vector<PartShape> shapes;
  Judgement judgement{};

  OneBore() {
    const Limit limit{"service",
                      "cylinder-bore",
                      "size-1",
                      LimitRole::service,
                      LimitSide::at_most,
                      typed("84.10 mm"),
                      {},
                      {},
                      {"book", "", "7", "", false, false}};
    job.id = "j";
    job.opened = Kept<JobOpened>{"e1", {"a job", {}, {}, UnitId::millimetre, ""}};
    job.limits = {{"e2", limit}};
    const Part part{"bore-1", "cylinder-bore", "1", {}, {StepKind::offset, typed("+0.50 mm"), ""}, Condition::fresh};
    parts = {{part, Feature::inside, {{{"top", StationRole::first, true, {}}}, {{"thrust", Ratio(), true}}}, Ratio()}};
    // Standard uncertainties 3 and 4 µm with coefficients 1 and -1: together 5 µm.
    sizes.sources = {{"m:limit", "limit-of-error", ErrorScope::master, ErrorShape::rectangular, 0.003, 50.0, "seen"},
                     {"r:temperature", "temperature", ErrorScope::round, ErrorShape::normal, 2.0, {}, "usual", Dimension::temperature}};
    const PlaceEstimate place{
        0, {"00112233445566778899aabbccddeeff"}, Ratio(840'548'000), 84.05471, {{0, 1.0}, {1, -0.002}}};
    groups = {{"cylinder-bore", EstimateModel::plain, Message{"why.plain_model", {}}, {{"bore-1", {place}}}, sizes.sources}};
    const Where where{{0}, {0}};
    measured = {{"bore-1", "size-1", ResultDimension::length, Ratio(840'548'000), where, {}, {}},
                {"bore-1", "tap-1", ResultDimension::length, {}, {}, {}, {Problem{"form.needs_more", {}, {}}}}};
    const Doubt doubt{84.05471, 0.005, 12.34, 9.058, 1.6449, where, {{"temperature", ErrorScope::round, 0.64}}};
    const Verdict verdict{"bore-1",
                          "service",
                          VerdictWord::within,
                          {},
                          {},
                          Ratio(846'000'000),
                          Ratio(840'548'000),
                          where,
                          true,
                          doubt,
                          PlainFigure{0.99996, 0.00012, 2048}};
    judgement = {usual_rule(),
                 usual_accuracy(),
                 {{"bore-1", StateWord::serviceable, {Message{"reason.serviceable", {}}}}},
                 {verdict},
                 {VerdictWord::within, {}, {"piston-1"}}};
  }
  [[nodiscard]] std::string written() const {
    return judgement_json({job, parts, sizes, {}, groups, measured, shapes, judgement, {}, {}});
  }
};

/// Whether `text`, with its line ends and indents taken out of both, stands in `all`.
bool holds(const std::string& all, const std::string& text) {
  const auto dense = [](const std::string& from) {
    std::string out;
    bool quoted = false;
    for (char c : from) {
      if (c == '"') quoted = !quoted;
      if (quoted || (c != ' ' && c != '\n')) out += c;
    }
    return out;
  };
  return dense(all).find(dense(text)) != std::string::npos;
}

TEST(JudgementJson, HeadSaysRuleAndAccuracy) {
  const std::string written = OneBore().written();
  EXPECT_TRUE(
      holds(written, R"({"format": "fettle-judgement", "version": 1, "job": {"id": "j", "name": "a job", "readings": 0},
      "rule": {"kind": "probability", "level": "0.95", "tie": "equal-is-within"}, "accuracy": {"draws": 1024, "seed": 20, "chance_standard_error": "0.00200", "most_points": 131072, "best_draws": 1024},
      "groups": [{"kind": "cylinder-bore", "model": "plain", "parts": ["bore-1"], "why": {"key": "why.plain_model", "arguments": {}},
      "said": []}], "parts": [)"))
      << written;
  EXPECT_TRUE(written.ends_with("}\n"));
}

TEST(JudgementJson, APlaceCombinesItsSources) {
  // √((1 · 3 µm)² + (0.002 mm/°C · 2 °C)²) = √(9 + 16) µm = 5 µm.
  EXPECT_TRUE(holds(OneBore().written(), R"("places": [{"station": "top", "direction": "thrust",
      "as_measured": {"value": "84.0548", "unit": "mm"}, "estimate": {"value": "84.0547", "unit": "mm"},
      "standard_uncertainty": {"value": "0.0050", "unit": "mm"}, "readings": ["00112233445566778899aabbccddeeff"]}])"));
}

TEST(JudgementJson, WhatCouldNotBeReckonedSaysWhatIsMissing) {
  EXPECT_TRUE(holds(OneBore().written(), R"("as_measured": [
      {"definition": "size-1", "value": {"value": "84.0548", "unit": "mm"}, "where": {"stations": ["top"], "directions": ["thrust"]}},
      {"definition": "tap-1", "missing": [{"code": "form.needs_more", "place": {}, "arguments": {}}]}])"));
}

TEST(JudgementJson, AVerdictCarriesLimitOriginRuleAndDoubt) {
  const std::string written = OneBore().written();
  EXPECT_TRUE(
      holds(written, R"("verdicts": [{"limit": "service", "definition": "size-1", "role": "service", "side": "at-most",
      "bound": {"value": "84.6000", "unit": "mm"},
      "bound_as_typed": {"text": "84.10 mm", "dimension": "length", "unit": "mm", "numerator": "841", "denominator": "10", "decimals": 2,
                         "mm": "84.1000000"},
      "origin": {"book": "book", "edition": "", "page": "7", "decision": "", "rule_of_thumb": false}, "word": "within",
      "judged_by": {"model": "plain", "why": {"key": "why.plain_model", "arguments": {}}},
      "as_measured": {"value": "84.0548", "unit": "mm"}, "where": {"stations": ["top"], "directions": ["thrust"]},
      "reading_keeps": true,
      "doubt": {"estimate": {"value": "84.0547", "unit": "mm"}, "standard_uncertainty": {"value": "0.0050", "unit": "mm"},
                "margin_in_u": "9.06", "guard_in_u": "1.645", "decides": {"stations": ["top"], "directions": ["thrust"]},
                "shares": [{"component": "temperature", "scope": "round", "share": "0.6400"}], "degrees_of_freedom": "12.3"},
      "plain": {"figure": "1.0000", "standard_error": "0.0001", "draws": 2048}}])"))
      << written;
}

TEST(JudgementJson, StepSourcesAndJointVerdict) {
  const std::string written = OneBore().written();
  EXPECT_TRUE(
      holds(written, R"("step": {"kind": "offset", "offset": {"text": "+0.50 mm", "dimension": "length", "unit": "mm",
      "numerator": "1", "denominator": "2", "decimals": 2, "mm": "0.5000000"}}, "condition": "new", "state": "serviceable")"))
      << written;
  EXPECT_TRUE(holds(written, R"("joint": {"word": "within", "left_out": ["piston-1"]}, "found_out": [], "masters": [],
      "sources": [{"id": "m:limit", "component": "limit-of-error", "scope": "master", "shape": "rectangular",
                   "standard_uncertainty": {"value": "3.0", "unit": "µm"}, "degrees_of_freedom": "50.0", "origin": "seen"},
                  {"id": "r:temperature", "component": "temperature", "scope": "round", "shape": "normal",
                   "standard_uncertainty": {"value": "2.000", "unit": "°C"}, "origin": "usual"}], "notices": []})"))
      << written;
}

TEST(JudgementJson, TheShownUnitTurnsEveryLength) {
  OneBore bore;
  bore.job.opened->value.shown_unit = UnitId::inch;
  // 84.0548 mm / 25.4 = 3.309244... in; 5 µm = 0.00019685 in.
  EXPECT_TRUE(holds(bore.written(), R"("as_measured": {"value": "3.30924", "unit": "in"})"));
  EXPECT_TRUE(holds(bore.written(), R"("standard_uncertainty": {"value": "0.00020", "unit": "in"})"));
}

/// The same bore with two stations and two directions, read at mid/pin, after the shape model: two nodes.
OneBore shaped_bore() {
  constexpr std::size_t kMidPin = 3;
  OneBore bore;
  Layout& layout = bore.parts.front().layout;
  layout.stations.push_back({"mid", StationRole::middle, true, {}});
  layout.directions.push_back({"pin", Ratio(90), true});
  GroupEstimate& estimate = bore.groups.front();
  estimate.model = EstimateModel::shape;
  estimate.said = {Message{"shape.level_unknown", {}}};
  estimate.parts.front().places.front()->cell = kMidPin;
  std::vector<double> own(16, 0.0);
  own[15] = 16.0;
  // A quarter at 50 with variance 3² + 16 = 25, three quarters at 54 with variance 16 - 7 = 9.
  const BlockPosterior low{{0.0, 0.0, 0.0, 50.0}, {0.0, 0.0, 0.0, 3.0}, own};
  own[15] = 9.0;
  const BlockPosterior high{{0.0, 0.0, 0.0, 54.0}, {0.0, 0.0, 0.0, 0.0}, own};
  const BlockRows row{{kMidPin}, {54.0}, {9.0}, {0.0}};
  bore.groups.front().shape = std::make_shared<const ShapeGroup>(ShapeGroup{
      {"bore-1"},
      {84.0, 1.0},
      {},
      {{{}, ShapeFreedom::usual, {1.0, 0.4376}, BlockGaussian({row}, 1), 1.0}},
      {},
      {{0.25, {low}}, {0.75, {high}}},
      {},
      {},
      {{{"00112233445566778899aabbccddeeff"}, "bore-1", kMidPin, 0.001234, 84.1296, 0.87654, 84.03581, 0.0162}},
      0.12345,
      0.25,
      {4.5, -0.62, 3.26},
      {4.0, 12.34, 3.2}});
  Verdict& verdict = bore.judgement.verdicts.front();
  verdict.chance = Chance{0.837149, 0.001189, 4096};
  verdict.forecast = Chance{0.5, 0.00005, 131072};
  verdict.best = BestEstimate{84.05471, 84.05312, 84.04554, 84.06066, -0.00062, -0.00121};
  verdict.chance_shares = {{"unseen-shape", {}, 0.75}, {"dial", ErrorScope::reading, 0.25}};
  bore.judgement.joint.chance = Chance{0.0001, 0.0, 64};
  bore.judgement.joint.forecast = Chance{1.0, 0.00119, 128};
  bore.judgement.joint.chance_leaves_out = {{"bore-1", "bore-taper"}};
  return bore;
}

TEST(JudgementJson, AGroupOfTheShapeModelSaysWhatItMakesOfTheReadings) {
  const std::string written = shaped_bore().written();
  EXPECT_TRUE(holds(written, R"("groups": [{"kind": "cylinder-bore", "model": "shape", "parts": ["bore-1"],
      "why": {"key": "why.plain_model", "arguments": {}}, "said": [{"key": "shape.level_unknown", "arguments": {}}],
      "shape": {"profile": [{"station": "top", "wear": "1.000"}, {"station": "mid", "wear": "0.438"}], "nodes": 2,
                "misfit_tail": "0.1235", "not_standard": "0.2500",
                "setting": {"stated": {"value": "0.0045", "unit": "mm"}, "mean": {"value": "-0.0006", "unit": "mm"},
                            "sd": {"value": "0.0033", "unit": "mm"}},
                "as_made": {"stated": {"value": "0.0040", "unit": "mm"}, "mean": {"value": "0.0123", "unit": "mm"},
                            "sd": {"value": "0.0032", "unit": "mm"}},
                "suspects": [{"part": "bore-1", "station": "mid", "direction": "pin", "readings": ["00112233445566778899aabbccddeeff"],
                              "shown": {"value": "84.1296", "unit": "mm"}, "expected": {"value": "84.0358", "unit": "mm"},
                              "expected_sd": {"value": "0.0162", "unit": "mm"}, "tail": "0.00123", "mistake": "0.8765"}]}}])"))
      << written;
}

TEST(JudgementJson, APlaceOfTheShapeModelHasItsBestEstimate) {
  // 50/4 + 54·3/4 = 53 µm over 84 mm; (50² + 25)/4 + (54² + 9)·3/4 - 53² = 16 = 4².
  EXPECT_TRUE(holds(shaped_bore().written(), R"("places": [{"station": "mid", "direction": "pin",
      "as_measured": {"value": "84.0548", "unit": "mm"}, "estimate": {"value": "84.0547", "unit": "mm"},
      "standard_uncertainty": {"value": "0.0050", "unit": "mm"}, "readings": ["00112233445566778899aabbccddeeff"],
      "best": {"mean": {"value": "84.0530", "unit": "mm"}, "sd": {"value": "0.0040", "unit": "mm"}}}])"));
}

TEST(JudgementJson, AVerdictOfTheShapeModelHasChanceForecastAndBestEstimate) {
  const std::string written = shaped_bore().written();
  EXPECT_TRUE(holds(written, R"("plain": {"figure": "1.0000", "standard_error": "0.0001", "draws": 2048},
      "chance": {"value": "0.8371", "standard_error": "0.00119", "points": 4096},
      "forecast": {"value": "0.5000", "standard_error": "0.00005", "points": 131072},
      "best": {"plain": {"value": "84.0547", "unit": "mm"}, "median": {"value": "84.0531", "unit": "mm"},
               "low": {"value": "84.0455", "unit": "mm"}, "high": {"value": "84.0607", "unit": "mm"},
               "moved_by_errors": {"value": "-0.0006", "unit": "mm"}, "moved_by_shape": {"value": "-0.0012", "unit": "mm"}},
      "chance_shares": [{"component": "unseen-shape", "share": "0.7500"},
                        {"component": "dial", "scope": "reading", "share": "0.2500"}]}])"))
      << written;
  EXPECT_TRUE(holds(written, R"("joint": {"word": "within", "left_out": ["piston-1"],
      "chance": {"value": "0.0001", "standard_error": "0.00000", "points": 64},
      "forecast": {"value": "1.0000", "standard_error": "0.00119", "points": 128},
      "chance_leaves_out": [{"part": "bore-1", "limit": "bore-taper"}]})"))
      << written;
}

TEST(JudgementJson, ATaperForEachLengthIsEstimatedAsARatio) {
  OneBore bore = shaped_bore();
  bore.job.limits.front().value.per = typed("100 mm");
  bore.job.limits.front().value.definition = "tap-6";
  bore.judgement.verdicts.front().best->median = 0.000412;
  EXPECT_TRUE(holds(bore.written(), R"("median": {"value": "0.000412", "unit": "1"})"));
}

TEST(JudgementJson, WithoutTheShapeModelNothingIsCalledAChance) {
  const std::string written = OneBore().written();
  for (const char* key : {"\"chance\"", "\"forecast\"", "\"best\"", "\"chance_shares\"", "\"profile\""}) {
    EXPECT_EQ(written.find(key), std::string::npos) << key;
  }
}

}  // namespace
}  // namespace fettle
