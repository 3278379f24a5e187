#include "form/face_plane.h"

#include <cmath>

namespace fettle {
namespace {

constexpr std::int64_t kParts = 1'000'000'000'000;

Ratio rounded(double weight) { return Ratio::of(std::llround(weight * static_cast<double>(kParts)), kParts); }

std::vector<Ratio> rounded(const std::vector<double>& weights) {
  std::vector<Ratio> out;
  for (const double each : weights) out.push_back(rounded(each));
  return out;
}

}  // namespace

std::optional<FacePlane> FacePlane::through(const std::vector<FacePoint>& points) {
  if (points.size() < 3) return std::nullopt;
  const double n = static_cast<double>(points.size());
  FacePoint centre{0.0, 0.0};
  for (const FacePoint& each : points) {
    centre.along += each.along / n;
    centre.across += each.across / n;
  }
  FacePlane out;
  double aa = 0.0;
  double cc = 0.0;
  double ac = 0.0;
  for (const FacePoint& each : points) {
    out.centred_.push_back({each.along - centre.along, each.across - centre.across});
    const FacePoint& at = out.centred_.back();
    aa += at.along * at.along;
    cc += at.across * at.across;
    ac += at.along * at.across;
  }
  const double determinant = aa * cc - ac * ac;
  constexpr double kOnOneLine = 1e-9;
  if (determinant <= kOnOneLine * (aa + cc) * (aa + cc)) return std::nullopt;
  for (const FacePoint& at : out.centred_) {
    out.along_.push_back((cc * at.along - ac * at.across) / determinant);
    out.across_.push_back((aa * at.across - ac * at.along) / determinant);
  }
  return out;
}

std::vector<Ratio> FacePlane::slope_along() const { return rounded(along_); }
std::vector<Ratio> FacePlane::slope_across() const { return rounded(across_); }

std::vector<Ratio> FacePlane::off(std::size_t point) const {
  std::vector<Ratio> out;
  const double mean = 1.0 / static_cast<double>(centred_.size());
  for (std::size_t k = 0; k < centred_.size(); ++k) {
    const double plane = mean + centred_[point].along * along_[k] + centred_[point].across * across_[k];
    out.push_back(rounded((k == point ? 1.0 : 0.0) - plane));
  }
  return out;
}

}  // namespace fettle
