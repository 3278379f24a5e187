#include "cli/simulate_text.h"

#include <algorithm>
#include <array>

#include "cli/table.h"
#include "simulate/loss_chart.h"
#include "simulate/reliability_chart.h"
#include "units/print.h"

namespace fettle {
namespace {

constexpr std::size_t kScoresIndent = 2;
constexpr std::array kRules = {DecisionRule::notebook_equal_passes, DecisionRule::notebook_equal_fails, DecisionRule::guarded,
                               DecisionRule::bias_corrected,        DecisionRule::flat,                 DecisionRule::flat_tuned,
                               DecisionRule::ours,                  DecisionRule::bayes};

std::string key_of(DecisionRule rule) {
  switch (rule) {
    case DecisionRule::notebook_equal_passes: return "simulate.rule.notebook_passes";
    case DecisionRule::notebook_equal_fails: return "simulate.rule.notebook_fails";
    case DecisionRule::guarded: return "simulate.rule.guarded";
    case DecisionRule::bias_corrected: return "simulate.rule.bias_corrected";
    case DecisionRule::flat: return "simulate.rule.flat";
    case DecisionRule::flat_tuned: return "simulate.rule.flat_tuned";
    case DecisionRule::ours: return "simulate.rule.ours";
    case DecisionRule::bayes: return "simulate.rule.bayes";
  }
  return "";
}

class ScoresText {
 public:
  ScoresText(const SimulateRecord& record, Language language) : record_(record), language_(language) {}

  std::string text() const {
    std::string out;
    for (const std::string& hand : hands()) out += table(hand) + "\n";
    out += say({"simulate.what", {count("engines", static_cast<std::int64_t>(record_.engines)),
                                  decimal("wrong_pass", print_fixed(record_.costs.wrong_pass, 0)),
                                  decimal("wrong_fail", print_fixed(record_.costs.wrong_fail, 0)),
                                  verbatim("seed", std::to_string(record_.seed))}}) + "\n";
    out += say(losses_come_from()) + "\n" + say({"simulate.columns", {}}) + "\n";
    if (record_.stopped) out += say({"simulate.stopped", {}}) + "\n";
    return out;
  }

  std::vector<NamedChart> charts(double width) const {
    std::vector<NamedChart> out;
    for (const HandReliability& hand : record_.hands) {
      out.push_back({"losses-" + hand.hand, losses(hand.hand, width)});
      if (hand.ours) out.push_back({"chances-" + hand.hand, chances(hand, width)});
    }
    return out;
  }

 private:
  [[nodiscard]] std::string say(const Message& message) const { return sentence(message, language_); }
  [[nodiscard]] std::string number(double value, int decimals) const {
    return with_decimal_mark(print_fixed(value, decimals), language_);
  }

  /// Which engines the losses, and so the gap, are counted over.
  [[nodiscard]] Message losses_come_from() const {
    std::size_t exact = 0;
    bool all = true;
    for (const FamilyScores& each : record_.families) {
      if (each.with_exact) exact = each.with_exact->engines;  // the same number in every family that has them
      all = all && each.with_exact.has_value();
    }
    if (exact == 0) return {"simulate.losses_by_truth", {}};
    return {all ? "simulate.losses_exact" : "simulate.losses_exact_some", {count("exact", static_cast<std::int64_t>(exact))}};
  }

  [[nodiscard]] std::vector<std::string> hands() const {
    std::vector<std::string> out;
    for (const FamilyScores& each : record_.families) {
      if (std::find(out.begin(), out.end(), each.hand) == out.end()) out.push_back(each.hand);
    }
    return out;
  }

  /// Losses counted by the exact posterior where it is known, as its scatter is far smaller.
  static const LossFigures& loss_of(const RuleScore& score) { return score.expected ? *score.expected : score.raw; }

  [[nodiscard]] std::string ratio(const Scores& scores, DecisionRule rule) const {
    const RuleScore* score = scores.find(rule);
    if (score == nullptr || !loss_of(*score).to_notebook) return "–";
    return number(loss_of(*score).to_notebook->value, 2);
  }

  [[nodiscard]] std::string table(const std::string& hand) const {
    std::vector<std::vector<std::string>> rows = {{say({"simulate.column.family", {}}), say({"simulate.column.good", {}})}};
    for (DecisionRule rule : kRules) rows.front().push_back(say({key_of(rule), {}}));
    rows.front().push_back(say({"simulate.column.calibration", {}}));
    rows.front().push_back(say({"simulate.column.luck", {}}));
    rows.front().push_back(say({"simulate.column.gap", {}}));
    for (const FamilyScores& each : record_.families) {
      if (each.hand == hand) rows.push_back(row(each));
    }
    return say({"simulate.hand", {verbatim("hand", hand)}}) + "\n" + columns(rows, kScoresIndent);
  }

  [[nodiscard]] std::vector<std::string> row(const FamilyScores& each) const {
    const Scores& scores = each.with_exact ? *each.with_exact : each.scores;
    const Scores& all = each.scores;
    std::vector<std::string> cells = {each.family, number(static_cast<double>(all.good) / static_cast<double>(all.engines), 2)};
    for (DecisionRule rule : kRules) cells.push_back(ratio(scores, rule));
    cells.push_back(all.ours ? number(all.ours->calibration_error, 3) : "–");
    cells.push_back(all.ours ? number(all.ours->luck_mean, 3) : "–");
    const auto& gap = scores.gap_open_expected ? scores.gap_open_expected : scores.gap_open_raw;
    cells.push_back(gap ? number(gap->value, 2) : "–");
    return cells;
  }

  [[nodiscard]] Drawing losses(const std::string& hand, double width) const {
    constexpr std::array kDrawn = {DecisionRule::ours, DecisionRule::flat_tuned, DecisionRule::flat, DecisionRule::notebook_equal_passes};
    LossWords words{say({"simulate.chart.losses", {verbatim("hand", hand)}}), say({"simulate.chart.losses_about", {}}),
                    say({"simulate.chart.losses_axis", {}}), {}, say({"simulate.rule.bayes", {}}), say({"simulate.chart.notebook", {}}),
                    say({"simulate.chart.no_figure", {}}), with_decimal_mark(".", language_), {}};
    for (DecisionRule rule : kDrawn) words.rules.push_back(say({key_of(rule), {}}));
    std::vector<LossRow> rows;
    for (const FamilyScores& each : record_.families) {
      if (each.hand != hand || !verdict_at_stake(each.scores)) continue;
      rows.push_back(loss_row(each.family, each.with_exact ? *each.with_exact : each.scores, kDrawn));
    }
    return loss_chart(rows, words, width);
  }

  [[nodiscard]] Drawing chances(const HandReliability& hand, double width) const {
    std::vector<ReliabilitySeries> series = {{say({"simulate.rule.ours", {}}), *hand.ours}};
    if (hand.flat) series.push_back({say({"simulate.rule.flat_figure", {}}), *hand.flat});
    const ReliabilityWords words{say({"simulate.chart.chances", {verbatim("hand", hand.hand)}}), say({"simulate.chart.chances_about", {}}),
                                 say({"simulate.chart.chance_axis", {}}), say({"simulate.chart.share_axis", {}}),
                                 say({"simulate.chart.diagonal", {}}), say({"simulate.chart.counts", {}}), " %", {}};
    return reliability_chart(series, words, width);
  }

  const SimulateRecord& record_;
  Language language_;
};

}  // namespace

std::string simulation_text(const SimulateRecord& record, Language language) { return ScoresText(record, language).text(); }

std::vector<NamedChart> simulation_charts(const SimulateRecord& record, Language language, double width) {
  return ScoresText(record, language).charts(width);
}

}  // namespace fettle
