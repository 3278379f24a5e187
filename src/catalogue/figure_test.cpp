#include "catalogue/figure.h"

#include <gtest/gtest.h>

namespace fettle {
namespace {

TEST(Figure, ReadsPlainFiguresExactly) {
  EXPECT_EQ(read_figure("10.8e-6"), Ratio::of(108, 10'000'000));
  EXPECT_EQ(read_figure("0.0005"), Ratio::of(5, 10'000));
  EXPECT_EQ(read_figure("1/2"), Ratio::of(1, 2));
  EXPECT_EQ(read_figure("-3"), Ratio(-3));
}

TEST(Figure, ReadsNothingElse) {
  for (const char* text : {"", ".", "-", "1,5", "1e", "1e99", "1/0", "1.2.3", "x", "1234567890123456789"}) {
    EXPECT_FALSE(read_figure(text).has_value()) << text;
  }
}

TEST(Figure, NeedsItsUnit) {
  const auto half = read_figure_with_unit("0.5 div");
  ASSERT_TRUE(half.has_value());
  EXPECT_EQ(half->value, Ratio::of(1, 2));
  EXPECT_EQ(half->unit, UnitId::division);
  EXPECT_FALSE(read_figure_with_unit("0.5").has_value());
  EXPECT_FALSE(read_figure_with_unit("0.5 furlong").has_value());
  EXPECT_FALSE(read_figure_with_unit("µm").has_value());
}

}  // namespace
}  // namespace fettle
