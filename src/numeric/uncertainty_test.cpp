#include "numeric/uncertainty.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "base/assertion.h"

namespace fettle {
namespace {

// Hand calculation: contributions 3 and 4 give 5; shares 9/25 and 16/25; degrees 625 / (81/5 + 256/10) = 14.952...
TEST(Uncertainty, CombinesByHand) {
  const std::array<UncertaintyTerm, 2> terms{{{-1.5, 2.0, 5.0}, {2.0, 2.0, 10.0}}};
  const CombinedUncertainty combined = combine_uncertainty(terms);
  EXPECT_DOUBLE_EQ(combined.standard_uncertainty, 5.0);
  EXPECT_NEAR(combined.shares[0], 0.36, 1e-15);
  EXPECT_NEAR(combined.shares[1], 0.64, 1e-15);
  EXPECT_NEAR(combined.effective_degrees_of_freedom.value(), 625.0 / 41.8, 1e-12);
  EXPECT_EQ(truncated_degrees_of_freedom(combined.effective_degrees_of_freedom), 14.0);
}

TEST(Uncertainty, CertainAndInfiniteStayApart) {
  const std::array<UncertaintyTerm, 2> certain{{{1.0, 0.0, 5.0}, {0.0, 2.0, 3.0}}};
  EXPECT_EQ(combine_uncertainty(certain).standard_uncertainty, 0.0);
  EXPECT_FALSE(combine_uncertainty(certain).effective_degrees_of_freedom.has_value());
  EXPECT_EQ(combine_uncertainty(certain).shares, (std::vector<double>{0.0, 0.0}));
  const std::array<UncertaintyTerm, 1> infinite{{{1.0, 2.0, std::nullopt}}};
  EXPECT_FALSE(combine_uncertainty(infinite).effective_degrees_of_freedom.has_value());
  EXPECT_EQ(combine_uncertainty({}).standard_uncertainty, 0.0);
  EXPECT_FALSE(truncated_degrees_of_freedom(std::nullopt).has_value());
  EXPECT_EQ(truncated_degrees_of_freedom(0.7), 0.7);
}

TEST(Uncertainty, TinyAndHugeContributionsKeepTheirDigits) {
  const std::array<UncertaintyTerm, 2> tiny{{{3e-200, 1.0, 4.0}, {4e-200, 1.0, 4.0}}};
  EXPECT_DOUBLE_EQ(combine_uncertainty(tiny).standard_uncertainty, 5e-200);
  const std::array<UncertaintyTerm, 2> huge{{{3e200, 1.0, 4.0}, {4e200, 1.0, 4.0}}};
  EXPECT_DOUBLE_EQ(combine_uncertainty(huge).standard_uncertainty, 5e200);
  EXPECT_NEAR(combine_uncertainty(huge).effective_degrees_of_freedom.value(), 4.0 * 625.0 / 337.0, 1e-12);
}

TEST(Uncertainty, AgreesWithTheWiderType) {
  const std::array<double, 5> narrow{25.0, 9.7, 2.9, 16.6, 0.013};
  const std::array<double, 5> inverse{1.0 / 18.0, 1.0 / 25.6, 1.0 / 50.0, 0.5, 0.0};
  std::array<long double, 5> wide{};
  std::array<long double, 5> wide_inverse{};
  for (std::size_t i = 0; i < 5; ++i) {
    wide[i] = narrow[i];
    wide_inverse[i] = inverse[i];
  }
  const double u = static_cast<double>(root_sum_of_squares<long double>(wide));
  EXPECT_NEAR(root_sum_of_squares<double>(narrow) / u, 1.0, 5e-16);
  const double v = static_cast<double>(inverse_effective_degrees<long double>(wide, wide_inverse));
  EXPECT_NEAR(inverse_effective_degrees<double>(narrow, inverse) / v, 1.0, 2e-15);
}

TEST(Uncertainty, AnotherIndependentSourceNeverShrinksIt) {
  std::vector<UncertaintyTerm> terms;
  double before = 0.0;
  for (int i = 1; i <= 40; ++i) {
    terms.push_back({i % 2 == 0 ? -1.0 : 0.5, 1.0 / i, std::nullopt});
    const double now = combine_uncertainty(terms).standard_uncertainty;
    EXPECT_GE(now, before);
    before = now;
  }
}

// Hand calculation: y = x^2 at 0 with normal u = 3: variance 1/2 * 2^2 * 3^4 = 162. y = x1 x2 at (0, 0), u = 2 and 5:
// variance 1/2 * (4 * 25 + 25 * 4) = 100.
TEST(Uncertainty, SecondOrderByHand) {
  EXPECT_NEAR(second_order_uncertainty({{0.0}, {2.0}, {3.0}}), std::sqrt(162.0), 1e-13);
  EXPECT_NEAR(second_order_uncertainty({{0.0, 0.0}, {0.0, 1.0, 1.0, 0.0}, {2.0, 5.0}}), 10.0, 1e-14);
  EXPECT_NEAR(second_order_uncertainty({{3.0, 4.0}, {0.0, 0.0, 0.0, 0.0}, {1.0, 1.0}}), 5.0, 1e-15);
}

TEST(Uncertainty, ExpandsAndRefuses) {
  const ExpandedUncertainty expanded = expand_uncertainty(2.0, std::nullopt, 0.95);
  EXPECT_NEAR(expanded.coverage_factor, 1.959963984540054, 1e-14);
  EXPECT_NEAR(expanded.uncertainty, 3.919927969080108, 1e-14);
  const std::array<UncertaintyTerm, 1> negative{{{1.0, -1.0, std::nullopt}}};
  EXPECT_THROW((void)combine_uncertainty(negative), InternalError);
  const std::array<UncertaintyTerm, 1> no_degrees{{{1.0, 1.0, 0.0}}};
  EXPECT_THROW((void)combine_uncertainty(no_degrees), InternalError);
  EXPECT_THROW((void)second_order_uncertainty({{1.0}, {1.0, 2.0}, {1.0}}), InternalError);
  EXPECT_THROW((void)expand_uncertainty(-1.0, std::nullopt, 0.95), InternalError);
}

}  // namespace
}  // namespace fettle
