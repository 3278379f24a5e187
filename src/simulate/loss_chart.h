#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "drawing/drawing.h"
#include "simulate/score.h"

namespace fettle {

/// Every word on the chart, in the reader's language.
struct LossWords {
  std::string title;
  std::string description;  // for those who cannot see it
  std::string axis;
  std::vector<std::string> rules;  // names, in the order in which the rows count them
  std::string bayes;
  std::string notebook;      // what the line at 1 stands for
  std::string no_figure;     // in a row without any mark
  std::string decimal_mark;  // "." or ","
  std::vector<std::string> notes;
};

struct LossMark {
  std::size_t rule;  // which of LossWords::rules
  Scattered ratio;   // to the better notebook rule
};

struct LossRow {
  std::string family;
  std::vector<LossMark> marks;
  std::optional<double> bayes;
};

/// The row of one family: the ratio of each of `rules` to the better notebook rule, from expected losses where they are
/// known, else from raw ones. A rule that has no ratio is left out.
[[nodiscard]] LossRow loss_row(std::string family, const Scores& scores, std::span<const DecisionRule> rules);

/// One row for each family, one lane in it for each rule: the ratio as a mark with its interval of 95 % (1.96 standard
/// errors), the limit as a tick through all lanes, a dashed line at 1. The axis has room for all ratios up to 2.5; a
/// larger one is an arrow at its end, with the number. In pixels, laid out for `width`. Needs one to six rules, marks
/// that count them, a row, and a width of at least 300, else InternalError.
/// Kept by LossChart.MarksStandWhereTheRatiosSay and Charts.NothingLeavesThePaper.
[[nodiscard]] Drawing loss_chart(const std::vector<LossRow>& rows, const LossWords& words, double width);

}  // namespace fettle
