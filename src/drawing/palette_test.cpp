#include "drawing/palette.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace fettle {
namespace {

/// wcag22: relative luminance, and the contrast of two colours.
double luminance(Colour colour) {
  const auto linear = [](std::uint8_t part) {
    const double value = part / 255.0;
    return value <= 0.04045 ? value / 12.92 : std::pow((value + 0.055) / 1.055, 2.4);
  };
  return 0.2126 * linear(colour.red) + 0.7152 * linear(colour.green) + 0.0722 * linear(colour.blue);
}

double contrast(Colour one, Colour other) {
  const double a = luminance(one) + 0.05;
  const double b = luminance(other) + 0.05;
  return std::max(a, b) / std::min(a, b);
}

TEST(Palette, InksOfTextKeepTheirContrast) {
  EXPECT_NEAR(contrast({0, 0, 0}, {255, 255, 255}), 21.0, 1e-12);           // the greatest there is
  EXPECT_NEAR(contrast({0x76, 0x76, 0x76}, {255, 255, 255}), 4.54, 0.005);  // a grey known to be just dark enough
  for (const Palette palette : {Palette::paper, Palette::night}) {
    const Colour paper = colour_of(Ink::paper, palette);
    for (const Ink ink : {Ink::ink, Ink::faint, Ink::accent, Ink::second, Ink::third}) {
      EXPECT_GE(contrast(colour_of(ink, palette), paper), 4.5) << ink_name(ink);
    }
    for (const Ink ink : {Ink::ink, Ink::here, Ink::within, Ink::close, Ink::beyond}) {
      EXPECT_GE(contrast(colour_of(ink, palette), paper), 6.9) << ink_name(ink);
    }
    EXPECT_LT(contrast(colour_of(Ink::wash, palette), paper), 2.0);
  }
}

}  // namespace
}  // namespace fettle
