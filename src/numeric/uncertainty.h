#pragma once

#include <optional>
#include <span>
#include <vector>

namespace fettle {

/// One independent error source of a value that is linear in its sources.
struct UncertaintyTerm {
  double coefficient;           ///< how much the value changes with the source, value's unit per source's unit
  double standard_uncertainty;  ///< of the source, its unit, 0 or more
  std::optional<double> degrees_of_freedom;  ///< above 0; none: infinitely many, the uncertainty itself is certain
};

struct CombinedUncertainty {
  double standard_uncertainty;                         ///< unit of the value
  std::optional<double> effective_degrees_of_freedom;  ///< none: infinitely many
  std::vector<double>
      shares;  ///< of the variance, one for each term in the order given, sum 1; all 0 if nothing is uncertain
};

/// The law of propagation of uncertainty for independent sources, and the Welch-Satterthwaite formula.
/// Needs finite numbers, uncertainties not negative, degrees of freedom above 0, else InternalError. No terms: 0.
/// Relative error at most 1e-15 per term; no overflow or underflow as long as each |coefficient| * uncertainty is a
/// normal number. The effective degrees of freedom are not truncated. Exact for a linear value; see
/// second_order_uncertainty else. Source: jcgm100 equations 11a and G.2b. Kept by Uncertainty.* and
/// tests/outside/statistics/gum_h1_end_gauge.txt.
[[nodiscard]] CombinedUncertainty combine_uncertainty(std::span<const UncertaintyTerm> terms);

/// The leaf formulas of it, for contributions |coefficient| * uncertainty. T: double, long double.
template <class T>
[[nodiscard]] T root_sum_of_squares(std::span<const T> contributions);
/// u^4 / sum(u_i^4 / v_i); `inverse_degrees` are 1 / v_i, 0 where infinite; the answer is the inverse again, 0 if
/// infinite.
template <class T>
[[nodiscard]] T inverse_effective_degrees(std::span<const T> contributions, std::span<const T> inverse_degrees);

struct ExpandedUncertainty {
  double coverage_factor;
  double uncertainty;  ///< coverage factor times standard uncertainty, its unit
};

/// Half of the width of the interval that holds the value with `probability`, from Student's t with the degrees of
/// freedom as they are (jcgm100 G.6.4 truncates them first; see truncated_degrees_of_freedom). Needs a standard
/// uncertainty of 0 or more, 0 < probability < 1, else InternalError. Errors as student_t_coverage_factor. Source:
/// jcgm100 annex G.3 and G.4. Kept by tests/outside/statistics/gum_h1_end_gauge.txt.
[[nodiscard]] ExpandedUncertainty expand_uncertainty(double standard_uncertainty,
                                                     std::optional<double> degrees_of_freedom, double probability);

/// The next lower whole number, as jcgm100 G.4.1 prints degrees of freedom; below 1 they stay as they are.
[[nodiscard]] std::optional<double> truncated_degrees_of_freedom(std::optional<double> degrees_of_freedom);

/// A value that is not linear, by its derivatives at the estimate. `hessian` holds n * n second derivatives, row by
/// row.
struct SecondOrderTerms {
  std::vector<double> gradient;
  std::vector<double> hessian;
  std::vector<double> standard_uncertainties;
};

/// Standard uncertainty with the next order: u^2 = sum g_i^2 u_i^2 + 1/2 sum sum h_ij^2 u_i^2 u_j^2, for independent
/// sources. Exact for normal sources and a value at most quadratic, and for any symmetric sources and a sum of products
/// of two different ones; third derivatives are left out (they are 0 there). Needs matching sizes, finite numbers,
/// uncertainties not negative, else InternalError. Relative error at most 1e-15 per term. Source: jcgm100 5.1.2 note.
/// Kept by tests/outside/statistics/gum_h1_end_gauge.txt.
[[nodiscard]] double second_order_uncertainty(const SecondOrderTerms& terms);

}  // namespace fettle
