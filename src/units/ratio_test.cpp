#include "units/ratio.h"

#include <gtest/gtest.h>

namespace fettle {
namespace {

TEST(Ratio, PrintsRoundedOnceHalfAwayFromZero) {
  EXPECT_EQ(Ratio::of(1, 3).decimal(4), "0.3333");
  EXPECT_EQ(Ratio::of(5, 100).decimal(1), "0.1");
  EXPECT_EQ(Ratio::of(-5, 100).decimal(1), "-0.1");
  EXPECT_EQ(Ratio::of(-1, 100).decimal(1), "0.0");
  EXPECT_EQ(Ratio::of(999'999, 1'000'000).decimal(2), "1.00");
  EXPECT_EQ(Ratio(84).decimal(0), "84");
}

TEST(Ratio, ComparesWithoutOverflow) {
  const Int128 huge = static_cast<Int128>(1) << 120;
  EXPECT_LT(Ratio::of(huge - 1, huge), Ratio::of(huge, huge + 1));
  EXPECT_GT(Ratio::of(-1, 3), Ratio::of(-1, 2));
  EXPECT_EQ(Ratio::of(2, 4), Ratio::of(1, 2));
}

TEST(Ratio, ArithmeticIsExact) {
  EXPECT_EQ(Ratio::of(1, 3) + Ratio::of(1, 6), Ratio::of(1, 2));
  EXPECT_EQ(Ratio::of(1, 3) - Ratio::of(1, 3), Ratio());
  EXPECT_EQ(Ratio::of(2, 3) * Ratio::of(9, 4), Ratio::of(3, 2));
  EXPECT_EQ(Ratio::of(2, 3) / Ratio::of(-2, 3), Ratio(-1));
  EXPECT_EQ(Ratio::of(7, 2).rounded(), Ratio(4));
  EXPECT_EQ(Ratio::of(-7, 2).rounded(), Ratio(-4));
}

}  // namespace
}  // namespace fettle
