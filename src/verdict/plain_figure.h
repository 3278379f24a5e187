#pragma once

#include <cstdint>
#include <vector>

#include "verdict/doubt.h"

namespace fettle {

/// How well things are reckoned, and from which seed. Written into the result.
struct Accuracy {
  std::size_t draws;         ///< behind the plain figures; 0: none are made
  std::uint64_t seed;
  double chance_error;       ///< standard error wanted of every chance
  std::size_t most_points;   ///< of one chance
  std::size_t best_draws;    ///< behind the medians and intervals; 0: none are made
  bool operator==(const Accuracy&) const = default;
};

[[nodiscard]] inline Accuracy usual_accuracy() { return {1024, 20, 0.002, 1U << 17U, 1024}; }

struct PlainFigures {
  std::vector<PlainFigure> each;  ///< one for each question
  std::vector<bool> kept;         ///< of each draw: all questions of `joint` together
};

/// How often it was kept.
[[nodiscard]] PlainFigure plain_figure(const std::vector<bool>& kept);


/// JCGM 101: draws every error source once a trial, in a stream of its own that its id names, so that what parts share stays shared also
/// between calls, and what is not asked for changes nothing; gives how often each characteristic keeps its bound, and whether all marked ones do. Flat prior: a figure to compare with, not a chance. The same
/// input gives the same bits on every machine. `joint` has one entry for each question.
[[nodiscard]] PlainFigures plain_figures(const std::vector<Question>& questions, const std::vector<bool>& joint,
                                         const std::vector<ErrorSource>& sources, const Accuracy& accuracy);

}  // namespace fettle
