#include "numeric/fisher.h"

#include <boost/math/policies/policy.hpp>
#include <boost/math/special_functions/beta.hpp>
#include <cmath>
#include <string>

#include "base/assertion.h"

namespace fettle {
namespace {

using OneType = boost::math::policies::policy<boost::math::policies::promote_double<false>>;

}  // namespace

double fisher_upper(double value, double above, double below) {
  FETTLE_ASSERT(above > 0.0 && below > 0.0 && std::isfinite(above) && std::isfinite(below) && value >= 0.0, std::to_string(value));
  if (std::isinf(value)) return 0.0;
  return boost::math::ibeta(below / 2.0, above / 2.0, below / (below + above * value), OneType());
}

}  // namespace fettle
