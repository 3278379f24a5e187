#pragma once

#include <cstdint>
#include <string_view>

#include "drawing/drawing.h"

namespace fettle {

struct Colour {
  std::uint8_t red;
  std::uint8_t green;
  std::uint8_t blue;
};

/// `paper` is dark ink on pale paper, `night` pale ink on dark paper.
enum class Palette { paper, night };

/// The colour that an ink has. Against the paper of the same palette every ink that may write text has a contrast of at
/// least 4.5 (wcag22 1.4.3), `ink`, `here`, `within`, `close` and `beyond` of at least 6.9, `wash` less by intent. Kept by
/// Palette.InksOfTextKeepTheirContrast.
[[nodiscard]] Colour colour_of(Ink ink, Palette palette);

/// "beyond": the same word as in the code.
[[nodiscard]] std::string_view ink_name(Ink ink);

}  // namespace fettle
