#include "numeric/student_t.h"

#include <boost/math/distributions/students_t.hpp>
#include <string>

#include "base/assertion.h"
#include "numeric/normal.h"

namespace fettle {
namespace {

namespace policies = boost::math::policies;

// Never through long double: it is 80 bits wide on one machine, 64 or 128 on another. Errors come back as values, to be
// looked at here.
using Policy =
    policies::policy<policies::promote_double<false>, policies::domain_error<policies::ignore_error>,
                     policies::pole_error<policies::ignore_error>, policies::overflow_error<policies::ignore_error>,
                     policies::underflow_error<policies::ignore_error>,
                     policies::evaluation_error<policies::ignore_error>>;
using Distribution = boost::math::students_t_distribution<double, Policy>;

bool is_finite(double value) { return value >= -1.7e308 && value <= 1.7e308; }

Distribution distribution(double degrees_of_freedom) {
  FETTLE_ASSERT(degrees_of_freedom > 0.0 && is_finite(degrees_of_freedom), std::to_string(degrees_of_freedom));
  return Distribution(degrees_of_freedom);
}

}  // namespace

double student_t_lower(double t, std::optional<double> degrees_of_freedom) {
  FETTLE_ASSERT(is_finite(t), "t is not finite");
  if (!degrees_of_freedom) return normal_lower(t);
  return boost::math::cdf(distribution(*degrees_of_freedom), t);
}

double student_t_quantile(double probability, std::optional<double> degrees_of_freedom) {
  FETTLE_ASSERT(probability > 0.0 && probability < 1.0, "quantile of a probability outside of (0, 1)");
  if (!degrees_of_freedom) return normal_quantile(probability);
  const double t = boost::math::quantile(distribution(*degrees_of_freedom), probability);
  FETTLE_ASSERT(is_finite(t),
                "quantile too large for a number, degrees of freedom " + std::to_string(*degrees_of_freedom));
  return t;
}

double student_t_quantile_infinite(double probability) { return student_t_quantile(probability, std::nullopt); }

double student_t_coverage_factor(double probability, std::optional<double> degrees_of_freedom) {
  FETTLE_ASSERT(probability > 0.0 && probability < 1.0, "coverage probability outside of (0, 1)");
  // From the lower tail: half of what is left out is exact where (1 + p) / 2 would be rounded.
  return -student_t_quantile((1.0 - probability) / 2.0, degrees_of_freedom);
}

}  // namespace fettle
