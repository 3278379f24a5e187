#include "numeric/student_t.h"

#include <boost/math/distributions/students_t.hpp>
#include <string>

#include "base/assertion.h"
#include "numeric/normal.h"

namespace fettle {

double student_t_quantile_infinite(double probability) { return normal_quantile(probability); }

double student_t_quantile(double probability, double degrees_of_freedom) {
  FETTLE_ASSERT(probability > 0.0 && probability < 1.0 && degrees_of_freedom > 0.0,
                std::to_string(probability) + " " + std::to_string(degrees_of_freedom));
  // Never through long double: its width differs between machines.
  using Policy = boost::math::policies::policy<boost::math::policies::promote_double<false>>;
  return boost::math::quantile(boost::math::students_t_distribution<double, Policy>(degrees_of_freedom), probability);
}

}  // namespace fettle
