// Runs the published worked examples of tests/outside/statistics/: plain text files that a person can check line by
// line.
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <functional>
#include <numeric>
#include <optional>
#include <string>
#include <vector>

#include "numeric/draws.h"
#include "numeric/normal.h"
#include "numeric/propagate.h"
#include "numeric/student_t.h"
#include "numeric/uncertainty.h"
#include "outside/statistics_case.h"

namespace fettle {
namespace {

void compare(const std::string& file, int expectations, const std::function<Numbers(const OutsideCase&)>& answer) {
  for (const std::string& each : differences(file, expectations, answer)) ADD_FAILURE() << each;
}

double degrees_or_nan(const std::optional<double>& degrees) { return degrees.value_or(std::nan("")); }

// One place for both ways of giving a spread in the end-gauge files.
double spread(const Numbers& given, const std::string& source) {
  const auto half_width = given.find("half-width " + source);
  return half_width != given.end() ? half_width->second / std::sqrt(3.0) : given.at("u " + source);
}

CombinedUncertainty of_comparator(const Numbers& given) {
  if (given.contains("u d")) return {given.at("u d"), given.at("dof d"), {}};
  std::vector<UncertaintyTerm> parts;
  for (const std::string part : {"d observations", "d random", "d systematic"}) {
    parts.push_back({1.0, given.at("u " + part), given.at("dof " + part)});
  }
  return combine_uncertainty(parts);
}

// sqrt 2: the standard deviation of an arcsine distribution is its amplitude over sqrt 2.
double of_temperature(const Numbers& given) {
  if (given.contains("u theta")) return given.at("u theta");
  const std::array<UncertaintyTerm, 2> parts{{{1.0, given.at("u theta mean"), std::nullopt},
                                              {1.0 / std::sqrt(2.0), given.at("amplitude theta"), std::nullopt}}};
  return combine_uncertainty(parts).standard_uncertainty;
}

Numbers end_gauge(const OutsideCase& each) {
  const Numbers& given = each.given;
  const double length = given.at("lS");
  const double u_dalpha = spread(given, "dalpha");
  const double u_dtheta = spread(given, "dtheta");
  const CombinedUncertainty d = of_comparator(given);
  const std::array<UncertaintyTerm, 4> terms{{{1.0, given.at("u lS"), given.at("dof lS")},
                                              {1.0, d.standard_uncertainty, d.effective_degrees_of_freedom},
                                              {-length * given.at("theta"), u_dalpha, given.at("dof dalpha")},
                                              {-length * given.at("alphaS"), u_dtheta, given.at("dof dtheta")}}};
  const CombinedUncertainty combined = combine_uncertainty(terms);
  // Order: lS, d, alphaS, theta, dalpha, dtheta; the estimates of dalpha and dtheta are 0.
  SecondOrderTerms second{.gradient = {1.0, 1.0, 0.0, 0.0, terms[2].coefficient, terms[3].coefficient},
                          .hessian = std::vector<double>(36, 0.0),
                          .standard_uncertainties = {given.at("u lS"), d.standard_uncertainty, spread(given, "alphaS"),
                                                     of_temperature(given), u_dalpha, u_dtheta}};
  const auto cross = [](std::size_t i, std::size_t j, double value, SecondOrderTerms& into) {
    into.hessian[i * 6 + j] = into.hessian[j * 6 + i] = value;
  };
  SecondOrderTerms products{std::vector<double>(6, 0.0), std::vector<double>(36, 0.0), second.standard_uncertainties};
  SecondOrderTerms other = products;
  cross(4, 3, -length, products);
  cross(2, 5, -length, other);
  cross(4, 3, -length, second);
  cross(2, 5, -length, second);
  cross(0, 4, -given.at("theta"), second);
  cross(0, 5, -given.at("alphaS"), second);
  const double u = combined.standard_uncertainty;
  const auto truncated = truncated_degrees_of_freedom(combined.effective_degrees_of_freedom);
  return {{"u d", d.standard_uncertainty},
          {"dof d", degrees_or_nan(d.effective_degrees_of_freedom)},
          {"contribution dalpha", u * std::sqrt(combined.shares[2])},
          {"contribution dtheta", u * std::sqrt(combined.shares[3])},
          {"u_c", u},
          {"nu_eff", degrees_or_nan(combined.effective_degrees_of_freedom)},
          {"nu_eff truncated", degrees_or_nan(truncated)},
          {"k99", student_t_coverage_factor(0.99, truncated)},
          {"U99 of the rounded 32 nm", expand_uncertainty(std::round(u), truncated, 0.99).uncertainty},
          {"U99 for 16", expand_uncertainty(u, truncated, 0.99).uncertainty},
          {"U99 for nu_eff", expand_uncertainty(u, combined.effective_degrees_of_freedom, 0.99).uncertainty},
          {"second order dalpha theta", second_order_uncertainty(products)},
          {"second order alphaS dtheta", second_order_uncertainty(other)},
          {"u_c second order", second_order_uncertainty(second)}};
}

TEST(OutsideStatistics, EndGauge) { compare("gum_h1_end_gauge.txt", 29, end_gauge); }

TEST(OutsideStatistics, MonteCarloOfASum) {
  compare("jcgm101_additive.txt", 14, [](const OutsideCase& each) -> Numbers {
    const DrawShape shape = each.given.at("rectangular") == 1.0 ? DrawShape::rectangular : DrawShape::normal;
    const std::vector<ShapedSource> sources(4, {1.0, shape, 1.0, std::nullopt});
    const auto trials = static_cast<std::size_t>(each.given.at("trials"));
    const Propagation drawn = propagate(sources, {.trials = trials, .seed = 20, .probability = 0.95}).value();
    const CombinedUncertainty law = combine_uncertainty(std::vector<UncertaintyTerm>(4, {1.0, 1.0, std::nullopt}));
    return {{"mean", drawn.mean},
            {"standard deviation", drawn.standard_deviation},
            {"low", drawn.symmetric.low},
            {"high", drawn.symmetric.high},
            {"shortest width", drawn.shortest.high - drawn.shortest.low},
            {"law of propagation", law.standard_uncertainty},
            {"expanded by the law",
             expand_uncertainty(law.standard_uncertainty, law.effective_degrees_of_freedom, 0.95).uncertainty}};
  });
}

// EA-4/02 supplement 2, S10 (figures from memory, recomputed): a vernier caliper on a gauge block, µm. Two rectangles give a trapezium, so
// that 95 % lie within 1.83 u and not within 2 u; the printed u of 33 needs the rounded rows.
TEST(OutsideStatistics, AVernierCaliper) {
  const double third = 1.0 / std::sqrt(3.0);
  const std::vector<ShapedSource> sources = {{1.0, DrawShape::rectangular, 0.8 * third, std::nullopt},
                                             {1.0, DrawShape::rectangular, 3.4 * third, std::nullopt},
                                             {1.0, DrawShape::rectangular, 25.0 * third, std::nullopt},
                                             {1.0, DrawShape::rectangular, 50.0 * third, std::nullopt}};
  const Propagation drawn = propagate(sources, {.trials = 400'000, .seed = 10, .probability = 0.95}).value();
  const double expanded = (drawn.symmetric.high - drawn.symmetric.low) / 2.0;
  EXPECT_NEAR(drawn.standard_deviation, 32.34, 0.15);
  EXPECT_NEAR(expanded, 59.3, 0.4);
  EXPECT_NEAR(expanded / drawn.standard_deviation, 1.83, 0.01);
}

TEST(OutsideStatistics, StudentT) {
  compare("student_t.txt", 4 * 28, [](const OutsideCase& each) -> Numbers {
    const double nu = each.given.at("nu");
    const std::optional<double> degrees = std::isinf(nu) ? std::nullopt : std::optional(nu);
    const double t95 = student_t_coverage_factor(0.95, degrees);
    const double t99 = student_t_coverage_factor(0.99, degrees);
    return {{"printed 95", t95}, {"exact 95", t95}, {"printed 99", t99}, {"exact 99", t99}};
  });
}

TEST(OutsideStatistics, FoldedNormal) {
  compare("folded_normal.txt", 12, [](const OutsideCase& each) -> Numbers {
    const double mu = each.given.at("mu");
    const double sigma = each.given.at("sigma");
    const double z = mu / sigma;
    const double mean = 2.0 * sigma * normal_density(z) + mu * normal_between(-z, z);
    Generator generator(30, 1);
    std::vector<double> draws(static_cast<std::size_t>(each.given.at("draws")));
    draw(generator, DrawShape::normal, sigma, std::nullopt, draws);
    for (double& value : draws) value = std::fabs(mu + value);
    const double n = static_cast<double>(draws.size());
    const double drawn_mean = std::accumulate(draws.begin(), draws.end(), 0.0) / n;
    double squares = 0.0;
    for (const double value : draws) squares += (value - drawn_mean) * (value - drawn_mean);
    return {{"mean", mean},
            {"sd", std::sqrt(mu * mu + sigma * sigma - mean * mean)},
            {"mean of the draws", drawn_mean},
            {"sd of the draws", std::sqrt(squares / (n - 1.0))}};
  });
}

TEST(OutsideStatistics, ConformityOfOneItem) {
  compare("jcgm106_specific.txt", 16, [](const OutsideCase& each) -> Numbers {
    const Numbers& given = each.given;
    if (given.contains("lower limit")) {
      return {{"p_c", normal_upper((given.at("lower limit") - given.at("y")) / given.at("u"))}};
    }
    if (given.contains("upper limit")) {
      return {{"p_c", normal_lower((given.at("upper limit") - given.at("y")) / given.at("u"))}};
    }
    const double z = normal_quantile(given.at("p_c"));
    if (!given.contains("limit")) return {{"printed z", z}, {"exact z", z}};
    return {{"v_max", given.at("limit") / (1.0 - z * given.at("relative u"))}};
  });
}

TEST(OutsideStatistics, GuardBands) {
  compare("iso14253_rule.txt", 3, [](const OutsideCase& each) -> Numbers {
    if (each.given.contains("p")) return {{"guard factor", normal_quantile(each.given.at("p"))}};
    return {{"conformance probability at the guarded limit", normal_lower(each.given.at("k"))}};
  });
}

TEST(OutsideStatistics, WeightOfTenKilograms) {
  compare("ea402_s2_weight.txt", 10, [](const OutsideCase& each) -> Numbers {
    const Numbers& given = each.given;
    const std::array<UncertaintyTerm, 5> terms{{{1.0 / given.at("k mS"), given.at("U mS"), std::nullopt},
                                                {1.0, spread(given, "dD"), std::nullopt},
                                                {1.0, given.at("u dm"), std::nullopt},
                                                {1.0, spread(given, "dC"), std::nullopt},
                                                {1.0, spread(given, "dB"), std::nullopt}}};
    const CombinedUncertainty combined = combine_uncertainty(terms);
    const ExpandedUncertainty expanded = expand_uncertainty(combined.standard_uncertainty, std::nullopt, 0.9545);
    return {{"u", combined.standard_uncertainty},
            {"k", expanded.coverage_factor},
            {"U", expanded.uncertainty},
            {"share mS", 100.0 * combined.shares[0]},
            {"share dD", 100.0 * combined.shares[1]},
            {"share dm", 100.0 * combined.shares[2]},
            {"share dC", 100.0 * combined.shares[3]},
            {"share dB", 100.0 * combined.shares[4]}};
  });
}

}  // namespace
}  // namespace fettle
