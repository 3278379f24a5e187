#include "form/two_lobe.h"

#include <gtest/gtest.h>

#include <cmath>

#include "form/lobe_check.h"

namespace fettle {
namespace {

std::vector<Ratio> every(int step, int directions) {
  std::vector<Ratio> out;
  for (int i = 0; i < directions; ++i) out.push_back(Ratio(step * i));
  return out;
}

/// Diameters of an oval: 84 + ½·ovality·cos 2(θ − φ).
std::vector<double> oval(const std::vector<Ratio>& angles, double ovality, double largest_at_degrees) {
  std::vector<double> out;
  for (const Ratio& angle : angles) {
    out.push_back(84.0 + 0.5 * ovality * std::cos((angle.to_double() - largest_at_degrees) * 3.14159265358979323846 / 90.0));
  }
  return out;
}

TEST(TwoLobeRows, RowsGiveBackTheirOwnOval) {
  // The fit of an exact oval is that oval: tolerance 1e-12 mm, some hundred times the resolution of a double near 84 mm.
  for (int directions = 3; directions <= 18; ++directions) {
    const auto angles = every(180 / directions, directions);
    const auto rows = two_lobe_rows(angles);
    ASSERT_TRUE(rows.ok());
    for (double at : {0.0, 22.5, 45.0, 100.0}) {
      EXPECT_NEAR(ovality_mm(rows.value(), oval(angles, 0.040, at).data()), 0.040, 1e-12) << directions << " " << at;
    }
  }
}

TEST(TwoLobeRows, AThreeLobedBoreLooksRound) {
  // A two-point gauge adds opposite radii, so a wave of three lobes has one diameter everywhere: worked out in the trade notes.
  const auto rows = two_lobe_rows(every(30, 6)).value();
  std::vector<double> diameters;
  for (int i = 0; i < 6; ++i) {
    const double angle = 30.0 * i * 3.14159265358979323846 / 180.0;
    const auto radius = [](double at) { return 42.0 + 0.02 * std::cos(3.0 * at); };
    diameters.push_back(radius(angle) + radius(angle + 3.14159265358979323846));
  }
  EXPECT_NEAR(ovality_mm(rows, diameters.data()), 0.0, 1e-12);
}

TEST(TwoLobeRows, TwoDirectionsDetermineNoOval) {
  const auto two = two_lobe_rows(every(90, 2));
  ASSERT_FALSE(two.ok());
  EXPECT_EQ(two.problems().front().code, "numeric.two_lobe_too_few");
}

TEST(LobeCheck, ThreeDirectionsLeaveNothingToCheck) {
  const auto check = check_lobe(every(60, 3), oval(every(60, 3), 0.030, 20.0), 0.003);
  ASSERT_TRUE(check.ok());
  EXPECT_EQ(check.value().word, LobeWord::not_possible);
  EXPECT_NEAR(*check.value().ovality_mm, 0.030, 1e-12);
  EXPECT_NEAR(*check.value().direction_degrees, 20.0, 1e-6);
  EXPECT_FALSE(check.value().residual_sd_mm.has_value());
}

TEST(LobeCheck, ACircleHasNoDirection) {
  const auto check = check_lobe(every(45, 4), {84.0, 84.0, 84.0, 84.0}, 0.003).value();
  EXPECT_FALSE(check.direction_degrees.has_value());
  EXPECT_EQ(check.word, LobeWord::fits);
}

TEST(LobeCheck, FourDirectionsSeeABlunderButCannotNameIt) {
  // 0°, 45°, 90°, 135°: one reading off by e leaves ±e/4 in each, residual sd e/2 with one degree of freedom (by hand).
  auto sizes = oval(every(45, 4), 0.030, 10.0);
  sizes[2] += 0.040;
  const auto check = check_lobe(every(45, 4), sizes, 0.003).value();
  EXPECT_EQ(check.word, LobeWord::does_not_fit);
  EXPECT_NEAR(*check.residual_sd_mm, 0.020, 1e-9);
  EXPECT_FALSE(check.direction.has_value());
  // e/2 = 0.0075 is under 2.576 u = 0.0077: no blunder yet (√6.635 = 2.576).
  sizes[2] -= 0.025;
  EXPECT_EQ(check_lobe(every(45, 4), sizes, 0.003).value().word, LobeWord::fits);
  // e/2 = 0.008 is over it.
  sizes[2] += 0.001;
  EXPECT_EQ(check_lobe(every(45, 4), sizes, 0.003).value().word, LobeWord::does_not_fit);
}

TEST(LobeCheck, SixDirectionsNameTheOneThatStandsOut) {
  auto sizes = oval(every(30, 6), 0.030, 10.0);
  sizes[4] += 0.040;
  const auto check = check_lobe(every(30, 6), sizes, 0.003).value();
  EXPECT_EQ(check.word, LobeWord::one_stands_out);
  EXPECT_EQ(check.direction, 4U);
}

TEST(LobeCheck, TwoBlundersAreNotPinnedOnOne) {
  auto sizes = oval(every(30, 6), 0.030, 10.0);
  sizes[1] += 0.050;
  sizes[2] += 0.050;
  const auto check = check_lobe(every(30, 6), sizes, 0.003).value();
  EXPECT_EQ(check.word, LobeWord::does_not_fit);
  EXPECT_FALSE(check.direction.has_value());
}

}  // namespace
}  // namespace fettle
