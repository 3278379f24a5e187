#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "units/ratio.h"

namespace fettle {

/// Where a height was read on a face, mm.
struct FacePoint {
  double along;
  double across;
};

/// The plane of least squares through heights at `points`, as weights of the heights: what it rises along and across per mm, and how far
/// each height stands off it. Weights are rounded to 1e-12. Nothing where the points lie on one line or are fewer than three. Source:
/// gauss1823 (normal equations about the centre).
class FacePlane {
 public:
  [[nodiscard]] static std::optional<FacePlane> through(const std::vector<FacePoint>& points);

  [[nodiscard]] std::vector<Ratio> slope_along() const;
  [[nodiscard]] std::vector<Ratio> slope_across() const;
  [[nodiscard]] std::vector<Ratio> off(std::size_t point) const;

 private:
  std::vector<double> along_;  ///< weights of the slope along
  std::vector<double> across_;
  std::vector<FacePoint> centred_;
};

}  // namespace fettle
