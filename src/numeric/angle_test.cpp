#include "numeric/angle.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/assertion.h"

namespace fettle {
namespace {

TEST(Angle, IsExactAtQuarterTurns) {
  for (int turn = -8; turn <= 8; ++turn) {
    const double degrees = 90.0 * turn;
    EXPECT_EQ(sine_of_degrees(degrees), turn % 2 == 0 ? 0.0 : ((turn % 4 + 4) % 4 == 1 ? 1.0 : -1.0)) << degrees;
    EXPECT_EQ(cosine_of_degrees(degrees), turn % 2 != 0 ? 0.0 : ((turn % 4 + 4) % 4 == 0 ? 1.0 : -1.0)) << degrees;
  }
}

// Hand calculation: sin 30 = 1/2, cos 60 = 1/2, sin 45 = sqrt(1/2). Tolerance: one unit in the last place.
TEST(Angle, KnowsTheSchoolAngles) {
  EXPECT_NEAR(sine_of_degrees(30.0), 0.5, 1.2e-16);
  EXPECT_NEAR(cosine_of_degrees(60.0), 0.5, 1.2e-16);
  EXPECT_NEAR(cosine_of_degrees(120.0), -0.5, 1.2e-16);
  EXPECT_NEAR(sine_of_degrees(45.0) * sine_of_degrees(45.0), 0.5, 2.3e-16);
}

TEST(Angle, AgreesWithTheWiderType) {
  for (int i = -20'000; i <= 20'000; ++i) {
    const double degrees = i * 0.0371;
    const long double wide = degrees;
    // The wider type's own reduction is exact too, so this compares rounding only; the system's function checks the
    // formula.
    EXPECT_NEAR(sine_of_degrees(degrees), static_cast<double>(sine_of_degrees(wide)), 2e-16) << degrees;
    EXPECT_NEAR(cosine_of_degrees(degrees), static_cast<double>(cosine_of_degrees(wide)), 2e-16) << degrees;
    EXPECT_NEAR(sine_of_degrees(degrees), static_cast<double>(std::sin(wide * 3.14159265358979323846L / 180)), 3e-16);
  }
}

TEST(Angle, DirectionUndoesSineAndCosine) {
  for (int i = -1799; i <= 1800; ++i) {
    const double degrees = i / 10.0;
    EXPECT_NEAR(direction_in_degrees(sine_of_degrees(degrees), cosine_of_degrees(degrees)), degrees, 1e-13);
  }
  EXPECT_EQ(direction_in_degrees(0.0, -3.0), 180.0);
  EXPECT_EQ(direction_in_degrees(-2.0, 0.0), -90.0);
  EXPECT_NEAR(direction_in_degrees(1e-20, 1e20), 0.0, 1e-38);
}

TEST(Angle, RefusesWhatHasNoDirection) {
  EXPECT_THROW((void)direction_in_degrees(0.0, 0.0), InternalError);
  EXPECT_THROW((void)direction_in_degrees(std::nan(""), 1.0), InternalError);
  EXPECT_THROW((void)sine_of_degrees(1.1e6), InternalError);
}

}  // namespace
}  // namespace fettle
