#include "units/print.h"

#include <gtest/gtest.h>

#include <limits>

#include "base/assertion.h"

namespace fettle {
namespace {

TEST(Print, FixedFiguresHaveNoNegativeZero) {
  EXPECT_EQ(print_fixed(-0.0004, 2), "0.00");
  EXPECT_EQ(print_fixed(-1.005, 1), "-1.0");
  EXPECT_EQ(print_fixed(1e6, 0), "1000000");
  EXPECT_THROW((void)print_fixed(std::numeric_limits<double>::quiet_NaN(), 2), InternalError);
}

TEST(Print, LengthsInTheAskedUnit) {
  EXPECT_EQ(print_length(25.4, UnitId::inch), "1.00000");
  EXPECT_EQ(print_length(0.0056, UnitId::micrometre), "5.6");
}

}  // namespace
}  // namespace fettle
