#include "numeric/weights.h"

#include <Eigen/Core>
#include <Eigen/Eigenvalues>
#include <cmath>
#include <string>

#include "base/assertion.h"

namespace fettle {
namespace {

using RowMajor = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

// Smaller eigenvalues than this part of the greatest are rounding noise.
constexpr double kNoError = 1e-13;
// Share of the vector of ones in the directions without error, above which those directions decide alone.
constexpr double kReachesOnes = 1e-10;

WeightsReport equal_weights(std::size_t n, WeightsBasis basis, bool usable) {
  return {.weights = std::vector<double>(n, 1.0 / static_cast<double>(n)),
          .optimal = false,
          .usable = usable,
          .basis = basis,
          .condition = std::nullopt,
          .variance = 0.0};
}

bool is_symmetric(const Eigen::MatrixXd& matrix) {
  const double scale = matrix.cwiseAbs().maxCoeff();
  return (matrix - matrix.transpose()).cwiseAbs().maxCoeff() <= 1e-12 * scale;
}

// Along each eigenvector, how much of the weighting: 1 / eigenvalue, or, if the vector of ones can be reached without
// any error, the directions without error alone.
Eigen::VectorXd gains(const Eigen::VectorXd& values, const Eigen::VectorXd& ones, double floor) {
  double without_error = 0.0;
  for (Eigen::Index k = 0; k < values.size(); ++k) {
    if (values[k] <= floor) without_error += ones[k] * ones[k];
  }
  const bool error_free = without_error > kReachesOnes * static_cast<double>(values.size());
  Eigen::VectorXd out(values.size());
  for (Eigen::Index k = 0; k < values.size(); ++k) {
    const bool flat = values[k] <= floor;
    out[k] = error_free ? (flat ? 1.0 : 0.0) : (flat ? 0.0 : 1.0 / values[k]);
  }
  return out;
}

}  // namespace

WeightsReport best_linear_unbiased_weights(const std::vector<double>& covariance, std::size_t n) {
  FETTLE_ASSERT(n >= 1 && n <= 64 && covariance.size() == n * n, std::to_string(n));
  for (const double entry : covariance) FETTLE_ASSERT(std::isfinite(entry), "covariance is not finite");
  const auto size = static_cast<Eigen::Index>(n);
  const Eigen::MatrixXd given = Eigen::Map<const RowMajor>(covariance.data(), size, size);
  if (given.cwiseAbs().maxCoeff() == 0.0) return equal_weights(n, WeightsBasis::equal_without_error, true);
  if (!is_symmetric(given)) return equal_weights(n, WeightsBasis::equal_not_covariance, false);

  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> solver(given);
  const Eigen::VectorXd values = solver.eigenvalues();  // rising
  const double floor = kNoError * values[size - 1];
  if (solver.info() != Eigen::Success || values[size - 1] <= 0.0 || values[0] < -10.0 * floor) {
    return equal_weights(n, WeightsBasis::equal_not_covariance, false);
  }
  const Eigen::VectorXd ones = solver.eigenvectors().transpose() * Eigen::VectorXd::Ones(size);
  Eigen::VectorXd raw = solver.eigenvectors() * gains(values, ones, floor).cwiseProduct(ones);
  raw /= raw.sum();
  const bool singular = values[0] <= floor;
  return {.weights = std::vector<double>(raw.begin(), raw.end()),
          .optimal = true,
          .usable = true,
          .basis = singular ? WeightsBasis::best_of_several : WeightsBasis::best,
          .condition = singular ? std::nullopt : std::optional(values[size - 1] / values[0]),
          .variance = std::fmax(0.0, raw.dot(given * raw))};
}

}  // namespace fettle
