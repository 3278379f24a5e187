#include "numeric/student_t.h"

#include <gtest/gtest.h>

#include <cmath>
#include <optional>

#include "base/assertion.h"
#include "numeric/normal.h"

namespace fettle {
namespace {

// With 1, 2 and 4 degrees of freedom Student's t has closed forms:
//   1: F = 1/2 + atan(t)/pi;  2: F = 1/2 + t / (2 sqrt(2 + t^2));
//   4: F = 1/2 + (s/4)(3 - s^2) with s = t / sqrt(4 + t^2).
double closed_form(double t, int degrees) {
  if (degrees == 1) return 0.5 + std::atan(t) / 3.14159265358979323846;
  if (degrees == 2) return 0.5 + t / (2.0 * std::sqrt(2.0 + t * t));
  const double s = t / std::sqrt(4.0 + t * t);
  return 0.5 + s / 4.0 * (3.0 - s * s);
}

TEST(StudentT, DistributionHasItsClosedForms) {
  for (const int degrees : {1, 2, 4}) {
    for (int i = -400; i <= 400; ++i) {
      const double t = i * 0.05;
      EXPECT_NEAR(student_t_lower(t, degrees), closed_form(t, degrees), 1e-13) << degrees << " " << t;
    }
  }
}

// 1: tan(pi (p - 1/2)); 2: (2p - 1) sqrt(2 / (4p (1 - p))). Tolerance: the stated 1e-12.
TEST(StudentT, QuantileHasItsClosedForms) {
  for (int i = 1; i < 200; ++i) {
    const double p = i / 200.0;
    const double one = i == 100 ? 0.0 : std::tan(3.14159265358979323846 * (p - 0.5));
    const double two = (2.0 * p - 1.0) * std::sqrt(2.0 / (4.0 * p * (1.0 - p)));
    EXPECT_NEAR(student_t_quantile(p, 1.0), one, 1e-12 * std::fmax(1.0, std::fabs(one))) << p;
    EXPECT_NEAR(student_t_quantile(p, 2.0), two, 1e-12 * std::fmax(1.0, std::fabs(two))) << p;
  }
}

TEST(StudentT, RealDegreesUndoThemselvesAndRunIntoTheNormal) {
  for (const double degrees : {0.5, 1.5, 3.7, 16.65, 50.0, 1e4}) {
    for (const double p : {0.001, 0.025, 0.3, 0.8, 0.995}) {
      EXPECT_NEAR(student_t_lower(student_t_quantile(p, degrees), degrees), p, 1e-12) << degrees;
    }
  }
  EXPECT_EQ(student_t_quantile(0.975, std::nullopt), normal_quantile(0.975));
  EXPECT_EQ(student_t_quantile_infinite(0.975), normal_quantile(0.975));
  EXPECT_EQ(student_t_lower(1.3, std::nullopt), normal_lower(1.3));
  EXPECT_NEAR(student_t_quantile(0.975, 1e9), normal_quantile(0.975), 1e-8);  // z (z^2 + 1) / (4 v) = 2.4e-9
  EXPECT_NEAR(student_t_coverage_factor(0.95, std::nullopt), 1.959963984540054, 1e-14);
}

TEST(StudentT, RefusesWhatHasNoAnswer) {
  EXPECT_THROW((void)student_t_quantile(0.0, 3.0), InternalError);
  EXPECT_THROW((void)student_t_quantile(1.0, 3.0), InternalError);
  EXPECT_THROW((void)student_t_quantile(0.9, 0.0), InternalError);
  EXPECT_THROW((void)student_t_quantile(0.9, std::nan("")), InternalError);
  EXPECT_THROW((void)student_t_lower(std::nan(""), 3.0), InternalError);
  EXPECT_THROW((void)student_t_coverage_factor(1.0, 3.0), InternalError);
}

}  // namespace
}  // namespace fettle
