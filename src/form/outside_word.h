#pragma once

#include <vector>

#include "form/shape_fit.h"
#include "form/shape_rows.h"

namespace fettle {

/// What is said from outside a group of error sources that have a column of their own, beside their stated sd: information about each
/// in units of its sd. Empty vectors: nothing is said.
struct OutsideWord {
  std::vector<double> information;  ///< row by row, named x named
  std::vector<double> pull;         ///< information times the mean
};

/// The sum of what several say.
[[nodiscard]] OutsideWord together(const std::vector<OutsideWord>& words, std::size_t named);

/// The same to the nearest 1/128 of everything: what is told changes a group only where it says something to it. Off by at most 1/256 in an
/// information of 1 or more, a thousandth or two of the sd of a source.
[[nodiscard]] OutsideWord rounded(OutsideWord word);

/// Changes the named columns of `rows` so that their unknowns are N(0, I) again once `word` is heard.
void hear(ShapeRows& rows, const OutsideWord& word);

/// What a fit says of the named sources beyond `heard` and their stated sd: its mixture matched by one Gaussian, what it was told taken off.
[[nodiscard]] OutsideWord say(const std::vector<FittedNode>& nodes, const ShapeRows& rows, const OutsideWord& heard);

}  // namespace fettle
