#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "drawing/drawing.h"

namespace fettle {

/// A guess at how wide a text becomes, in the unit of `size`, from classes of letters as a wide sans-serif face has
/// them: rather too wide than too narrow, since nobody knows which face the reader has. UTF-8. Kept by
/// TextWidth.GuessIsNotBelowAWideFace.
[[nodiscard]] double guessed_width(std::string_view words, double size, Weight weight);

/// Cuts a text at its spaces into lines not wider than `width` by the guess above. A single word that is wider keeps
/// its line. At least one line, which is empty for an empty text. Needs width > 0, else InternalError.
[[nodiscard]] std::vector<std::string> lines_within(std::string_view words, double size, Weight weight, double width);

/// The same, but a word that is wider is cut between its letters.
[[nodiscard]] std::vector<std::string> broken_lines(std::string_view words, double size, Weight weight, double width);

/// The text, or as much of its beginning as has room with "…" behind it. Needs width > 0, else InternalError.
[[nodiscard]] std::string shortened(std::string_view words, double size, Weight weight, double width);

}  // namespace fettle
