#pragma once

#include <vector>

#include "drawing/drawing.h"

namespace fettle {

/// Base line to base line, in sizes of the text.
inline constexpr double kTextLineStep = 1.35;

/// The lines of a text box, each where it stands. The same in every way of writing: cut by the guessed width.
[[nodiscard]] std::vector<Text> lines_of(const TextBox& box);

/// How high the box becomes.
[[nodiscard]] double height_of(const TextBox& box);

}  // namespace fettle
