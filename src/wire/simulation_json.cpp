#include "units/print.h"
#include "wire/json_text.h"
#include "wire/simulation_values.h"

namespace fettle {
namespace {

using json::Json;

using json::number;
using json::reliability_of;
using json::scattered;

std::string rule_name(DecisionRule rule) {
  switch (rule) {
    case DecisionRule::notebook_equal_passes: return "notebook-equal-passes";
    case DecisionRule::notebook_equal_fails: return "notebook-equal-fails";
    case DecisionRule::guarded: return "guarded";
    case DecisionRule::bias_corrected: return "bias-corrected";
    case DecisionRule::flat: return "flat";
    case DecisionRule::flat_tuned: return "flat-tuned";
    case DecisionRule::ours: return "ours";
    case DecisionRule::bayes: return "bayes";
  }
  return "";
}

Json loss(const LossFigures& loss) {
  Json out = {{"mean", scattered(loss.mean)}};
  if (loss.to_notebook) out["to_notebook"] = scattered(*loss.to_notebook);
  return out;
}

Json rule(const RuleScore& score) {
  Json out = {{"rule", rule_name(score.rule)},
              {"passed", score.passed},
              {"wrong_passes", score.wrong_passes},
              {"wrong_fails", score.wrong_fails},
              {"raw", loss(score.raw)}};
  if (score.expected) out["expected"] = loss(*score.expected);
  return out;
}

Json scores_of(const Scores& scores) {
  Json out = {{"engines", scores.engines},
              {"good", scores.good},
              {"misfits", scores.misfits},
              {"without_chance", scores.without_chance},
              {"mean_readings", number(scores.mean_readings)},
              {"flat_tuned_threshold", number(scores.flat_tuned_threshold)},
              {"rules", Json::array()}};
  for (const RuleScore& each : scores.rules) out["rules"].push_back(rule(each));
  if (scores.gap_open_raw) out["gap_open_raw"] = scattered(*scores.gap_open_raw);
  if (scores.gap_open_expected) out["gap_open_expected"] = scattered(*scores.gap_open_expected);
  if (scores.ours) out["ours"] = reliability_of(*scores.ours);
  if (scores.flat) out["flat"] = reliability_of(*scores.flat);
  return out;
}

}  // namespace

std::string simulation_json(const SimulateRecord& record) {
  Json out = {{"format", "fettle-simulation"},
              {"version", 1},
              {"seed", record.seed},
              {"engines", record.engines},
              {"exact_engines", record.exact_engines},
              {"chance_standard_error", print_fixed(record.chance_error, 5)},
              {"costs", {{"wrong_pass", number(record.costs.wrong_pass)}, {"wrong_fail", number(record.costs.wrong_fail)}}},
              {"stopped", record.stopped},
              {"families", Json::array()},
              {"hands", Json::array()}};
  for (const FamilyScores& each : record.families) {
    Json entry = {{"family", each.family}, {"hand", each.hand}, {"scores", scores_of(each.scores)}};
    if (each.with_exact) entry["with_exact"] = scores_of(*each.with_exact);
    out["families"].push_back(std::move(entry));
  }
  for (const HandReliability& each : record.hands) {
    Json entry = {{"hand", each.hand}};
    if (each.ours) entry["ours"] = reliability_of(*each.ours);
    if (each.flat) entry["flat"] = reliability_of(*each.flat);
    if (each.flat_by_hindsight) {
      entry["flat_by_hindsight"] = {{"threshold", number(each.flat_by_hindsight->threshold)},
                                    {"mean_to_notebook", number(each.flat_by_hindsight->mean_to_notebook)}};
    }
    out["hands"].push_back(std::move(entry));
  }
  return out.dump(json::kIndent) + "\n";
}

}  // namespace fettle
