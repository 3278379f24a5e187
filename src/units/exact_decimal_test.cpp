#include "units/exact_decimal.h"

#include <gtest/gtest.h>

namespace fettle {
namespace {

TEST(ExactDecimal, HasAsManyFiguresAsItTakes) {
  EXPECT_EQ(exact_decimal(Ratio()), "0");
  EXPECT_EQ(exact_decimal(Ratio(-12)), "-12");
  EXPECT_EQ(exact_decimal(Ratio::of(33070, 10000)), "3.307");
  EXPECT_EQ(exact_decimal(Ratio::of(-1, 8)), "-0.125");
  EXPECT_EQ(exact_decimal(Ratio::of(1, 250)), "0.004");
  EXPECT_EQ(exact_decimal(Ratio::power_of_ten(-18)), "0.000000000000000001");
}

TEST(ExactDecimal, IsNothingWhereNoDecimalIsExact) {
  EXPECT_EQ(exact_decimal(Ratio::of(1, 3)), std::nullopt);
  EXPECT_EQ(exact_decimal(Ratio::of(22, 7)), std::nullopt);
  EXPECT_EQ(exact_decimal(Ratio::of(1, static_cast<Int128>(1) << 19)), std::nullopt);
}

TEST(ExactDecimal, LargeFiguresDoNotOverflow) {
  const Ratio large = Ratio::power_of_ten(30);
  EXPECT_EQ(exact_decimal(large), "1" + std::string(30, '0'));
  EXPECT_EQ(exact_decimal(large + Ratio::power_of_ten(-7)), "1" + std::string(30, '0') + ".0000001");
}

}  // namespace
}  // namespace fettle
