#include "gauging/hand_errors.h"

#include <gtest/gtest.h>

#include "base/assertion.h"

namespace fettle {
namespace {

TEST(HandErrors, SixtyDegreesWouldDoubleTheSize) {
  // cos 60° = 1/2. Just below, D·(1/cos φ − 1) goes to D; at 60° the function refuses.
  EXPECT_NEAR(tilt_error_mm(100.0, 59.999999), 100.0, 1e-5);
  EXPECT_THROW((void)tilt_error_mm(100.0, 60.0), InternalError);
  EXPECT_THROW((void)tilt_error_mm(100.0, -60.0), InternalError);
}

TEST(HandErrors, SmallTiltsKeepTheirDigits) {
  // φ²/2 + 5φ⁴/24: at 1e-6°, φ = 1.7453292519943296e-8, φ²/2 = 1.523087098933542e-16; the next term is below 1e-31.
  EXPECT_NEAR(tilt_error_mm(1.0, 1e-6) / 1.523087098933542e-16, 1.0, 1e-12);
}

TEST(HandErrors, TiltReadsTooLargeEitherWay) {
  // 1/cos 45° − 1 = √2 − 1 = 0.41421356237309505.
  EXPECT_NEAR(tilt_error_mm(10.0, 45.0), 4.1421356237309505, 1e-12);
  EXPECT_EQ(tilt_error_mm(10.0, -45.0), tilt_error_mm(10.0, 45.0));
  EXPECT_EQ(tilt_error_mm(10.0, 0.0), 0.0);
}

TEST(HandErrors, ChordOfTheThreeFourFiveTriangle) {
  // Radius 50, offset 30: half chord 40, so 80 − 100.
  EXPECT_NEAR(chord_error_mm(100.0, 30.0), -20.0, 1e-12);
  EXPECT_NEAR(chord_error_mm(100.0, -30.0), -20.0, 1e-12);
  EXPECT_EQ(chord_error_mm(100.0, 0.0), 0.0);
}

TEST(HandErrors, SmallOffsetsKeepTheirDigits) {
  // −o²/r: (1e-6)²/50 = 2e-14, the next term o⁴/(4r³) is below 1e-29.
  EXPECT_NEAR(chord_error_mm(100.0, 1e-6) / -2e-14, 1.0, 1e-12);
}

TEST(HandErrors, NoChordBesideTheCircle) { EXPECT_THROW((void)chord_error_mm(100.0, 50.0), InternalError); }

}  // namespace
}  // namespace fettle
