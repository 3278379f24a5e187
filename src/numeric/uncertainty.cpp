#include "numeric/uncertainty.h"

#include <cmath>
#include <string>

#include "base/assertion.h"
#include "numeric/student_t.h"

namespace fettle {
namespace {

bool is_spread(double value) { return std::isfinite(value) && value >= 0.0; }

template <class T>
T greatest(std::span<const T> contributions) {
  T most = 0;
  for (const T contribution : contributions) most = contribution > most ? contribution : most;
  return most;
}

}  // namespace

template <class T>
T root_sum_of_squares(std::span<const T> contributions) {
  // Relative to the greatest, so that no square overflows or vanishes.
  const T most = greatest(contributions);
  if (most == 0) return 0;
  T sum = 0;
  for (const T contribution : contributions) sum += (contribution / most) * (contribution / most);
  return most * std::sqrt(sum);
}

template <class T>
T inverse_effective_degrees(std::span<const T> contributions, std::span<const T> inverse_degrees) {
  FETTLE_ASSERT(contributions.size() == inverse_degrees.size(), "one for each contribution");
  const T combined = root_sum_of_squares(contributions);
  if (combined == 0) return 0;
  T sum = 0;
  for (std::size_t i = 0; i < contributions.size(); ++i) {
    const T share = (contributions[i] / combined) * (contributions[i] / combined);
    sum += share * share * inverse_degrees[i];
  }
  return sum;
}

template double root_sum_of_squares(std::span<const double>);
template long double root_sum_of_squares(std::span<const long double>);
template double inverse_effective_degrees(std::span<const double>, std::span<const double>);
template long double inverse_effective_degrees(std::span<const long double>, std::span<const long double>);

CombinedUncertainty combine_uncertainty(std::span<const UncertaintyTerm> terms) {
  std::vector<double> contributions;
  std::vector<double> inverse_degrees;
  for (const UncertaintyTerm& term : terms) {
    FETTLE_ASSERT(std::isfinite(term.coefficient) && is_spread(term.standard_uncertainty),
                  std::to_string(term.coefficient) + " " + std::to_string(term.standard_uncertainty));
    FETTLE_ASSERT(!term.degrees_of_freedom || *term.degrees_of_freedom > 0.0, std::to_string(*term.degrees_of_freedom));
    contributions.push_back(std::fabs(term.coefficient) * term.standard_uncertainty);
    inverse_degrees.push_back(term.degrees_of_freedom ? 1.0 / *term.degrees_of_freedom : 0.0);
  }
  CombinedUncertainty out{root_sum_of_squares<double>(contributions), std::nullopt, {}};
  const double inverse = inverse_effective_degrees<double>(contributions, inverse_degrees);
  if (inverse > 0.0) out.effective_degrees_of_freedom = 1.0 / inverse;
  for (const double contribution : contributions) {
    const double ratio = contribution > 0.0 ? contribution / out.standard_uncertainty : 0.0;
    out.shares.push_back(ratio * ratio);
  }
  return out;
}

ExpandedUncertainty expand_uncertainty(double standard_uncertainty, std::optional<double> degrees_of_freedom,
                                       double probability) {
  FETTLE_ASSERT(is_spread(standard_uncertainty), std::to_string(standard_uncertainty));
  const double factor = student_t_coverage_factor(probability, degrees_of_freedom);
  return {factor, factor * standard_uncertainty};
}

std::optional<double> truncated_degrees_of_freedom(std::optional<double> degrees_of_freedom) {
  if (!degrees_of_freedom || *degrees_of_freedom < 1.0) return degrees_of_freedom;
  return std::floor(*degrees_of_freedom);
}

double second_order_uncertainty(const SecondOrderTerms& terms) {
  const std::vector<double>& u = terms.standard_uncertainties;
  const std::size_t n = u.size();
  FETTLE_ASSERT(terms.gradient.size() == n && terms.hessian.size() == n * n, std::to_string(n));
  std::vector<double> contributions;
  for (std::size_t i = 0; i < n; ++i) {
    FETTLE_ASSERT(std::isfinite(terms.gradient[i]) && is_spread(u[i]), std::to_string(u[i]));
    contributions.push_back(std::fabs(terms.gradient[i]) * u[i]);
  }
  const double root_half = std::sqrt(0.5);
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j < n; ++j) {
      FETTLE_ASSERT(std::isfinite(terms.hessian[i * n + j]), "second derivative is not finite");
      contributions.push_back(root_half * std::fabs(terms.hessian[i * n + j]) * u[i] * u[j]);
    }
  }
  return root_sum_of_squares<double>(contributions);
}

}  // namespace fettle
