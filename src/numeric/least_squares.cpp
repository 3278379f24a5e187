#include "numeric/least_squares.h"

#include <Eigen/QR>
#include <cmath>
#include <numbers>

namespace fettle {

Result<TwoLobeFit> fit_two_lobe(const std::vector<double>& angles_degrees, const std::vector<double>& sizes) {
  FETTLE_ASSERT(angles_degrees.size() == sizes.size(), std::to_string(sizes.size()));
  const auto n = static_cast<Eigen::Index>(sizes.size());
  const Problem undetermined{"numeric.two_lobe_undetermined", {}, {}};
  if (n < 3) return undetermined;
  Eigen::MatrixXd design(n, 3);
  Eigen::VectorXd values(n);
  for (Eigen::Index i = 0; i < n; ++i) {
    const double twice = angles_degrees[static_cast<std::size_t>(i)] * std::numbers::pi / 90.0;
    design.row(i) << 1.0, std::cos(twice), std::sin(twice);
    values[i] = sizes[static_cast<std::size_t>(i)];
  }
  Eigen::ColPivHouseholderQR<Eigen::MatrixXd> qr(design);
  qr.setThreshold(1e-6);
  if (qr.rank() < 3) return undetermined;
  const Eigen::Vector3d fit = qr.solve(values);
  const Eigen::VectorXd rest = values - design * fit;
  double direction = std::atan2(fit[2], fit[1]) * 90.0 / std::numbers::pi;
  if (direction < 0.0) direction += 180.0;
  return TwoLobeFit{fit[0], fit[1], fit[2], 2.0 * std::hypot(fit[1], fit[2]), direction,
                    std::vector<double>(rest.begin(), rest.end()), static_cast<int>(n) - 3};
}

}  // namespace fettle
