#include "numeric/chi_squared.h"

#include <boost/math/policies/policy.hpp>
#include <boost/math/special_functions/gamma.hpp>
#include <cmath>
#include <string>

#include "base/assertion.h"

namespace fettle {
namespace {

using OneType = boost::math::policies::policy<boost::math::policies::promote_double<false>>;

}  // namespace

double chi_squared_upper(double value, double degrees_of_freedom) {
  FETTLE_ASSERT(degrees_of_freedom > 0.0 && std::isfinite(degrees_of_freedom) && value >= 0.0, std::to_string(value));
  return boost::math::gamma_q(degrees_of_freedom / 2.0, value / 2.0, OneType());
}

}  // namespace fettle
