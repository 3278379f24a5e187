#include <gtest/gtest.h>

#include "wire/json_text.h"
#include "wire/json_values.h"

namespace fettle {
namespace {

using json::Json;

// The expected values are written by hand from the schema.

RuleScore rule(DecisionRule rule) { return {rule, 7, 2, 1, {{0.0, 0.0}, {}}, {}}; }

Scores bare_scores() { return {{1500.0, 450.0}, 0.77, 12, 8, 1, 3, 6.5, {}, {}, {}, {}, {}}; }

SimulateRecord bare_record() { return {18446744073709551615U, 12, 0, 0.005, {1500.0, 450.25}, {}, {}, false}; }

/// Two bins, and every figure of its own size, so that none can stand in for another.
Reliability full_reliability() {
  return {9,      {{0.1, 0.2, 4, 0.15, 0.25, {0.0456, 0.6994}, 0.16}, {0.9, 1.0, 5, 0.96, 1.0, {0.5655, 1.0}, {}}},
          0.031,  0.083,
          0.014,  0.042,
          0.1201, 0.33336};
}

TEST(SimulationJson, WhatWasNotReckonedIsLeftOut) {
  SimulateRecord record = bare_record();
  record.families = {{"exp", "mid", bare_scores(), {}}};
  record.hands = {{"mid", {}, {}, {}}};
  const Json expected = Json::parse(R"({
      "format": "fettle-simulation", "version": 1, "seed": 18446744073709551615, "engines": 12, "exact_engines": 0,
      "chance_standard_error": "0.00500", "costs": {"wrong_pass": "1500.0000", "wrong_fail": "450.2500"}, "stopped": false,
      "families": [{"family": "exp", "hand": "mid", "scores": {"engines": 12, "good": 8, "misfits": 1, "without_chance": 3,
                    "mean_readings": "6.5000", "flat_tuned_threshold": "0.7700", "rules": []}}],
      "hands": [{"hand": "mid"}]})");
  EXPECT_EQ(Json::parse(simulation_json(record)), expected);
}

TEST(SimulationJson, EveryRuleHasItsNameInTheOrderOfTheScores) {
  SimulateRecord record = bare_record();
  record.families = {{"exp", "mid", bare_scores(), {}}};
  record.families.front().scores.rules = {rule(DecisionRule::notebook_equal_passes),
                                          rule(DecisionRule::notebook_equal_fails),
                                          rule(DecisionRule::guarded),
                                          rule(DecisionRule::bias_corrected),
                                          rule(DecisionRule::flat),
                                          rule(DecisionRule::flat_tuned),
                                          rule(DecisionRule::ours),
                                          rule(DecisionRule::bayes)};
  const Json written = Json::parse(simulation_json(record));
  std::vector<std::string> names;
  for (const Json& each : written["families"][0]["scores"]["rules"]) names.push_back(each["rule"]);
  EXPECT_EQ(names, (std::vector<std::string>{"notebook-equal-passes", "notebook-equal-fails", "guarded",
                                             "bias-corrected", "flat", "flat-tuned", "ours", "bayes"}));
}

TEST(SimulationJson, ARuleHasItsMistakesAndBothWaysOfCountingLosses) {
  SimulateRecord record = bare_record();
  RuleScore ours = rule(DecisionRule::ours);
  ours.raw = {{287.5, 41.2}, Scattered{0.82, 0.06}};
  ours.expected = LossFigures{{301.25, 12.5}, {}};
  record.families = {{"exp", "mid", bare_scores(), bare_scores()}};
  Scores& scores = *record.families.front().with_exact;
  scores.rules = {ours};
  scores.gap_open_raw = Scattered{-0.05, 0.21};
  scores.gap_open_expected = Scattered{0.36, 0.02};
  const Json written = Json::parse(simulation_json(record))["families"][0]["with_exact"];
  EXPECT_EQ(written["rules"], Json::parse(R"([{"rule": "ours", "passed": 7, "wrong_passes": 2, "wrong_fails": 1,
      "raw": {"mean": {"value": "287.5000", "standard_error": "41.2000"}, "to_notebook": {"value": "0.8200", "standard_error": "0.0600"}},
      "expected": {"mean": {"value": "301.2500", "standard_error": "12.5000"}}}])"));
  EXPECT_EQ(written["gap_open_raw"], Json::parse(R"({"value": "-0.0500", "standard_error": "0.2100"})"));
  EXPECT_EQ(written["gap_open_expected"], Json::parse(R"({"value": "0.3600", "standard_error": "0.0200"})"));
}

TEST(SimulationJson, AReliabilityHasItsBinsAndWhatLuckWouldGive) {
  const Json expected =
      Json::parse(R"({"count": 9, "calibration_error": "0.0310", "luck_mean": "0.0830", "luck_most": "0.0140",
      "brier": "0.1201", "log_loss": "0.3334", "bins": [
        {"from": "0.1000", "to": "0.2000", "count": 4, "mean_chance": "0.1500", "share_good": "0.2500", "low": "0.0456", "high": "0.6994",
         "mean_exact": "0.1600"},
        {"from": "0.9000", "to": "1.0000", "count": 5, "mean_chance": "0.9600", "share_good": "1.0000", "low": "0.5655", "high": "1.0000"}],
      "calibration_error_exact": "0.0420"})");
  SimulateRecord record = bare_record();
  record.stopped = true;
  const Reliability reliability = full_reliability();
  record.families = {{"exp", "mid", bare_scores(), {}}};
  record.families.front().scores.ours = reliability;
  record.hands = {{"mid", {}, reliability, FlatByHindsight{0.32, 0.86}}};
  const Json written = Json::parse(simulation_json(record));
  EXPECT_EQ(written["families"][0]["scores"]["ours"], expected);
  EXPECT_EQ(written["families"][0]["scores"].contains("flat"), false);
  EXPECT_EQ(written["hands"][0]["flat"], expected);
  EXPECT_EQ(written["hands"][0].contains("ours"), false);
  EXPECT_EQ(written["hands"][0]["flat_by_hindsight"],
            Json::parse(R"({"threshold": "0.3200", "mean_to_notebook": "0.8600"})"));
  EXPECT_EQ(written["stopped"], true);
}

TEST(SimulationJson, IsIndentedByTwoAndEndsItsLastLine) {
  const std::string written = simulation_json(bare_record());
  EXPECT_TRUE(written.starts_with("{\n  \"format\": \"fettle-simulation\",\n  \"version\": 1,\n")) << written;
  EXPECT_TRUE(written.ends_with("\n}\n")) << written;
}

}  // namespace
}  // namespace fettle
