#include "units/length.h"

#include <gtest/gtest.h>

#include "units/quantity.h"

namespace fettle {
namespace {

TEST(Length, InchIsExact) {
  const auto inch = exact_length({Ratio::of(3307, 1000), UnitId::inch});
  ASSERT_TRUE(inch.has_value());
  EXPECT_EQ(in_unit(inch->ratio(), UnitId::millimetre, 4), "83.9978");
  EXPECT_EQ(exact_length({Ratio::of(1, 1'000'000), UnitId::inch}), Length::counts(254));
  EXPECT_EQ(exact_length({Ratio::of(1, 128), UnitId::inch}), Length::counts(1'984'375));
  EXPECT_EQ(exact_length({Ratio::of(1, 256), UnitId::inch}), std::nullopt);
}

TEST(Length, OtherDimensionsAreNoLength) {
  EXPECT_EQ(exact_length({Ratio(1), UnitId::newton}), std::nullopt);
}

}  // namespace
}  // namespace fettle
