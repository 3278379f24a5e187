#include "numeric/weights.h"

#include <Eigen/Cholesky>
#include <Eigen/Core>
#include <string>

#include "base/assertion.h"

namespace fettle {

WeightsReport best_linear_unbiased_weights(const std::vector<double>& covariance, std::size_t n) {
  FETTLE_ASSERT(n >= 1 && n <= 64 && covariance.size() == n * n, std::to_string(n));
  using RowMajor = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;
  const auto size = static_cast<Eigen::Index>(n);
  const Eigen::Map<const RowMajor> given(covariance.data(), size, size);
  const WeightsReport equal{std::vector<double>(n, 1.0 / static_cast<double>(n)), false};
  const Eigen::VectorXd ones = Eigen::VectorXd::Ones(size);
  const Eigen::LDLT<Eigen::MatrixXd> factor(given);
  constexpr double kSingular = 1e-12;
  const auto pivots = factor.vectorD();
  if (factor.info() != Eigen::Success || pivots.minCoeff() <= kSingular * given.diagonal().maxCoeff()) return equal;
  const Eigen::VectorXd raw = factor.solve(ones);
  const double sum = raw.sum();
  if (!(sum > 0.0)) return equal;
  WeightsReport report{std::vector<double>(n), true};
  for (std::size_t i = 0; i < n; ++i) report.weights[i] = raw[static_cast<Eigen::Index>(i)] / sum;
  return report;
}

}  // namespace fettle
