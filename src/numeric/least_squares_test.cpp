#include "numeric/least_squares.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/assertion.h"
#include "numeric/angle.h"
#include "numeric/xoshiro.h"

namespace fettle {
namespace {

std::vector<double> oval(const std::vector<double>& angles, double mean, double ovality, double direction) {
  std::vector<double> sizes;
  for (const double angle : angles)
    sizes.push_back(mean + ovality / 2.0 * cosine_of_degrees(2.0 * (angle - direction)));
  return sizes;
}

// Hand calculation: an oval of 0.040 mm shows two axes 0.040, 0.028 (0.040 cos 45) and 0 at 0, 22.5 and 45 degrees, but
// four axes always the whole of it. Tolerance: sizes near 84 mm have a last place of 1.4e-14 mm.
TEST(TwoLobe, FourAxesGiveTheWholeOval) {
  const std::vector<double> axes{0.0, 45.0, 90.0, 135.0};
  for (int step = 0; step < 360; ++step) {
    const double direction = step * 0.5;
    const std::vector<double> sizes = oval(axes, 84.0, 0.040, direction);
    const auto fit = fit_two_lobe(axes, sizes);
    ASSERT_TRUE(fit.ok());
    EXPECT_NEAR(fit.value().ovality, 0.040, 5e-14) << direction;
    EXPECT_NEAR(fit.value().mean, 84.0, 3e-14) << direction;
    const double away = std::fabs(fit.value().direction_degrees.value() - direction);
    EXPECT_NEAR(std::fmin(away, 180.0 - away), 0.0, 1e-9) << direction;  // 5e-14 / 0.02 in degrees
    EXPECT_EQ(fit.value().degrees_of_freedom, 1);
    EXPECT_NEAR(fit.value().ovality_gain, std::sqrt(2.0), 1e-15);
  }
  const std::vector<double> two_axes = oval({0.0, 90.0}, 84.0, 0.040, 22.5);
  EXPECT_NEAR(two_axes[0] - two_axes[1], 0.028284271247461903, 3e-14);
}

// Hand calculation: sizes 4, 1, 0, 1 at 0, 45, 90, 135: mean 1.5, a = (4 - 0) / 2 = 2, b = (1 - 1) / 2 = 0,
// fitted 3.5, 1.5, -0.5, 1.5, residuals 0.5, -0.5, 0.5, -0.5.
TEST(TwoLobe, ResidualsByHand) {
  const auto fit = fit_two_lobe({0.0, 45.0, 90.0, 135.0}, {4.0, 1.0, 0.0, 1.0});
  ASSERT_TRUE(fit.ok());
  EXPECT_DOUBLE_EQ(fit.value().mean, 1.5);
  EXPECT_DOUBLE_EQ(fit.value().cosine, 2.0);
  EXPECT_NEAR(fit.value().sine, 0.0, 1e-15);
  EXPECT_DOUBLE_EQ(fit.value().ovality, 4.0);
  const std::vector<double> expected{0.5, -0.5, 0.5, -0.5};
  for (std::size_t i = 0; i < 4; ++i) EXPECT_NEAR(fit.value().residuals[i], expected[i], 1e-15) << i;
}

// Hand calculation: at 0, 22.5 and 45 degrees the centred moments of cos 2t and sin 2t have the eigenvalues
// 1 and 1 - 2 sqrt 2 / 3 = 0.0572; the gain is 2 over the root of the lesser one, 8.36.
TEST(TwoLobe, GainTellsHowLittleTheDirectionsDetermine) {
  const auto fit = fit_two_lobe({0.0, 22.5, 45.0}, {1.0, 2.0, 4.0});
  ASSERT_TRUE(fit.ok());
  EXPECT_NEAR(fit.value().ovality_gain, 2.0 / std::sqrt(1.0 - 2.0 * std::sqrt(2.0) / 3.0), 1e-13);
  EXPECT_EQ(fit.value().degrees_of_freedom, 0);
}

TEST(TwoLobe, RoundHasNoDirection) {
  const auto fit = fit_two_lobe({0.0, 45.0, 90.0, 135.0}, {84.0, 84.0, 84.0, 84.0});
  ASSERT_TRUE(fit.ok());
  EXPECT_EQ(fit.value().ovality, 0.0);
  EXPECT_FALSE(fit.value().direction_degrees.has_value());
}

// The normal equations, not centred, by elimination in the wider type.
struct Wide {
  long double mean, cosine, sine;
};
Wide solve_wide(const std::vector<double>& angles, const std::vector<double>& sizes) {
  long double m[3][4] = {};
  for (std::size_t i = 0; i < angles.size(); ++i) {
    const long double twice = 2 * static_cast<long double>(angles[i]);
    const long double row[3] = {1, cosine_of_degrees(twice), sine_of_degrees(twice)};
    for (int r = 0; r < 3; ++r) {
      for (int c = 0; c < 3; ++c) m[r][c] += row[r] * row[c];
      m[r][3] += row[r] * static_cast<long double>(sizes[i]);
    }
  }
  for (int p = 0; p < 3; ++p) {
    for (int r = 0; r < 3; ++r) {
      if (r == p) continue;
      const long double factor = m[r][p] / m[p][p];
      for (int c = 0; c < 4; ++c) m[r][c] -= factor * m[p][c];
    }
  }
  return {m[0][3] / m[0][0], m[1][3] / m[1][1], m[2][3] / m[2][2]};
}

TEST(TwoLobe, AgreesWithTheWiderType) {
  Xoshiro256 bits = Xoshiro256::stream(3, 1);
  int fitted = 0;
  for (int trial = 0; trial < 2000; ++trial) {
    std::vector<double> angles;
    std::vector<double> sizes;
    for (std::size_t n = 3 + bits.next() % 10; angles.size() < n;) {
      angles.push_back(180.0 * uniform_of_bits(bits.next()));
      sizes.push_back(84.0 + 0.1 * uniform_of_bits(bits.next()));
    }
    const auto fit = fit_two_lobe(angles, sizes);
    if (!fit.ok()) continue;
    ++fitted;
    const double allowed = 1e-15 * 84.1 * fit.value().ovality_gain * fit.value().ovality_gain;
    const Wide wide = solve_wide(angles, sizes);
    EXPECT_NEAR(fit.value().mean, static_cast<double>(wide.mean), 2.0 * allowed);
    EXPECT_NEAR(fit.value().cosine, static_cast<double>(wide.cosine), allowed);
    EXPECT_NEAR(fit.value().sine, static_cast<double>(wide.sine), allowed);
  }
  EXPECT_GT(fitted, 1900);
}

TEST(TwoLobe, RefusesDirectionsThatDoNotDetermineIt) {
  const auto code = [](const std::vector<double>& angles) {
    const auto fit = fit_two_lobe(angles, std::vector<double>(angles.size(), 84.0));
    return fit.ok() ? std::string("fitted") : fit.problems().front().code;
  };
  EXPECT_EQ(code({0.0, 90.0, 180.0}), "numeric.two_lobe_undetermined");
  EXPECT_EQ(code({0.0, 90.0, 0.0, 90.0}), "numeric.two_lobe_undetermined");
  EXPECT_EQ(code({20.0, 20.0, 20.0}), "numeric.two_lobe_undetermined");
  EXPECT_EQ(code({20.0, 20.02, 20.04}), "numeric.two_lobe_undetermined");
  EXPECT_EQ(code({0.0, 45.0}), "numeric.two_lobe_too_few");
  EXPECT_EQ(code({}), "numeric.two_lobe_too_few");
  EXPECT_EQ(code({0.0, 45.0, 90.0}), "fitted");
  EXPECT_EQ(code({0.0, 60.0, 120.0}), "fitted");
  EXPECT_THROW((void)fit_two_lobe({0.0, 45.0, 90.0}, {84.0, 84.0}), InternalError);
  EXPECT_THROW((void)fit_two_lobe({0.0, 45.0, 90.0}, {84.0, 84.0, std::nan("")}), InternalError);
}

}  // namespace
}  // namespace fettle
