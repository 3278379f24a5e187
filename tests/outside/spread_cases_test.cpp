// Certified and published figures about how values spread: tests/outside/statistics/, line by line.
#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <string>
#include <vector>

#include "numeric/range_constants.h"
#include "numeric/straight_line.h"
#include "numeric/summary.h"
#include "numeric/variance_analysis.h"
#include "outside/statistics_case.h"

namespace fettle {
namespace {

void compare(const std::string& file, int expectations, const std::function<Numbers(const OutsideCase&)>& answer) {
  for (const std::string& each : differences(file, expectations, answer)) ADD_FAILURE() << each;
}

TEST(OutsideSpread, NistUnivariate) {
  compare("strd_univariate.txt", 9, [](const OutsideCase& each) -> Numbers {
    const Summary found = summarize(each.lists.at("values"));
    return {{"mean", found.mean}, {"standard deviation", found.standard_deviation}, {"lag 1", found.lag1.value_or(std::nan(""))}};
  });
}

double f_of(const OneWayVariance& found) { return found.between.mean_square() / found.within.mean_square(); }

TEST(OutsideSpread, NistAnalysisOfVariance) {
  compare("strd_anova.txt", 3 * 7 + 2, [](const OutsideCase& each) -> Numbers {
    std::vector<std::vector<double>> groups;
    std::vector<std::vector<double>> exact;  // tenths to the first value, whole numbers
    for (const auto& [name, values] : each.lists) {
      groups.push_back(values);
      std::vector<double> tenths;
      for (const double value : values) tenths.push_back(static_cast<double>(std::llround(value * 10.0) - std::llround(each.lists.begin()->second[0] * 10.0)));
      exact.push_back(std::move(tenths));
    }
    const OneWayVariance found = one_way_variance(groups);
    const OneWayVariance of_exact = one_way_variance(exact);
    const double all = found.between.sum_of_squares + found.within.sum_of_squares;
    return {{"SS between", found.between.sum_of_squares},
            {"SS repeats", found.within.sum_of_squares},
            {"df between", found.between.degrees_of_freedom},
            {"df repeats", found.within.degrees_of_freedom},
            {"F", f_of(found)},
            {"R2", found.between.sum_of_squares / all},
            {"residual deviation", std::sqrt(found.within.mean_square())},
            {"F of exact differences", f_of(of_exact)},
            {"residual deviation of exact differences", std::sqrt(of_exact.within.mean_square()) / 10.0}};
  });
}

TEST(OutsideSpread, ACalibrationLine) {
  compare("gum_h3_calibration_line.txt", 17, [](const OutsideCase& each) -> Numbers {
    const StraightLine line = fit_straight_line(each.lists.at("x"), each.lists.at("y"), each.given.at("origin"));
    const StraightLine::Prediction at_30 = line.at(30.0);
    Numbers out = {{"intercept", line.intercept},   {"u intercept", line.intercept_uncertainty}, {"slope", line.slope}, {"u slope", line.slope_uncertainty},
                   {"correlation", line.correlation}, {"residual deviation", line.residual_deviation}, {"at 30", at_30.value},
                   {"u at 30", at_30.standard_uncertainty}};
    const Numbers plain = out;
    for (const auto& [name, value] : plain) out["exact " + name] = value;
    out["degrees of freedom"] = line.degrees_of_freedom;
    return out;
  });
}

TEST(OutsideSpread, PooledRepeatability) {
  compare("nist_pooling.txt", 4, [](const OutsideCase& each) -> Numbers {
    PooledSpread pooled;
    const std::vector<double>& degrees = each.lists.at("degrees of freedom");
    for (std::size_t i = 0; i < degrees.size(); ++i) pooled.add(each.lists.at("sums of squares")[i], degrees[i]);
    return {{"sum of squares", pooled.sum_of_squares},
            {"degrees of freedom", pooled.degrees_of_freedom},
            {"deviation", pooled.standard_deviation()},
            {"exact deviation", pooled.standard_deviation()}};
  });
}

TEST(OutsideSpread, RangeConstants) {
  compare("range_constants.txt", 4 * 11 + 6, [](const OutsideCase& each) -> Numbers {
    const auto n = static_cast<std::size_t>(each.given.at("n"));
    const double mean = range_mean(n);
    const double deviation = range_deviation(n);
    const double upper = 1.0 + 3.0 * deviation / mean;
    const double star = pooled_range_divisor(n, 1);
    return {{"printed d2", mean},  {"exact d2", mean},   {"printed d3", deviation}, {"exact d3", deviation}, {"printed c4", deviation_mean(each.given.at("n"))},
            {"exact c4", deviation_mean(each.given.at("n"))}, {"exact D3", std::max(0.0, 1.0 - 3.0 * deviation / mean)}, {"printed D4", upper},
            {"exact D4", upper},   {"printed d2*", star}, {"exact d2*", star}};
  });
}

// Cells of printed tables that are wrong: ours must stay clear of them.
TEST(OutsideSpread, WrongCellsOfPrintedTablesAreNotOurs) {
  const auto upper = [](std::size_t n) { return 1.0 + 3.0 * range_deviation(n) / range_mean(n); };
  EXPECT_GT(std::abs(range_deviation(5) - 0.880), 0.01);
  EXPECT_GT(std::abs(range_deviation(23) - 0.1759), 0.1);
  EXPECT_NEAR(upper(11), 1.744, 0.0006);
  EXPECT_GT(std::abs(upper(11) - 1.774), 0.02);
  EXPECT_GT(std::abs(upper(3) - 2.58), 0.005);
}

// Two families of constants are in circulation: for one standard deviation, and for 5.15 of them (99 % of a normal value). Ours are the
// first; the second are 5.15 times as large, and neither has to do with a unit of length.
TEST(OutsideSpread, TheOtherFamilyOfConstantsIsFivePointOneFiveTimesOurs) {
  EXPECT_NEAR(1.0 / range_mean(2), 0.8862, 5e-5);
  EXPECT_NEAR(1.0 / range_mean(3), 0.5908, 5e-5);
  EXPECT_NEAR(5.15 / range_mean(2), 4.56, 0.006);
  EXPECT_NEAR(5.15 / range_mean(3), 3.05, 0.009);
  const std::vector<double> for_one = {0.7071, 0.5231, 0.4467, 0.4030, 0.3742, 0.3534, 0.3375, 0.3249, 0.3146};
  const std::vector<double> for_5_15 = {3.65, 2.70, 2.30, 2.08, 1.93, 1.82, 1.74, 1.67, 1.62};
  for (std::size_t n = 2; n <= 10; ++n) {
    EXPECT_NEAR(1.0 / pooled_range_divisor(n, 1), for_one[n - 2], 6e-5) << n;
    EXPECT_NEAR(5.15 / pooled_range_divisor(n, 1), for_5_15[n - 2], 0.0085) << n;
  }
}

}  // namespace
}  // namespace fettle
