#include "form/shape_prior.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "base/assertion.h"
#include "numeric/angle.h"
#include "numeric/elementary.h"
#include "numeric/triangular.h"

namespace fettle {
namespace {

constexpr double kRoundStrokes = 0.35;
constexpr double kOvalStrokes = 0.5;
constexpr double kSmoothStrokes = 0.4;
constexpr double kDepartureFloor = 0.15;  // under the root of G: wear leaves its profile a little everywhere
constexpr double kCommonWear = 0.5;     // sd of the group's wear, share of w
constexpr double kOvalMean = 0.4;
constexpr double kCommonOval = 0.25;
constexpr double kOwnOval = 0.25;
constexpr double kSkewed = 0.3;         // share of the ovality's variance that lies askew
// r is a departure of a diameter, so the amplitude of an ovality (half of it) changes along the length by r/2.
constexpr double kOvalSmoothShare = 0.25;
constexpr double kClampedStrokes = 0.4;  // how fast ovality of clamping fades from the first station
constexpr double kAsMadeCommon = 0.20;   // of the tolerance
constexpr double kAsMadeOwn = 0.17;
constexpr double kLooseUm = 50.0;
constexpr double kUnknownToleranceUm = 20.0;
constexpr double kJitter = 1e-9;

std::vector<double> squared_exponential(const std::vector<double>& height, double strokes) {
  const std::size_t n = height.size();
  std::vector<double> out(n * n);
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t k = 0; k < n; ++k) {
      const double apart = (height[i] - height[k]) / strokes;
      out[i * n + k] = exponential(-0.5 * apart * apart) + (i == k ? kJitter : 0.0);
    }
  }
  return out;
}

std::vector<double> lower_factor(std::vector<double> matrix, std::size_t n) {
  const bool definite = factor_upper(matrix, n);
  FETTLE_ASSERT(definite, "heights of " + std::to_string(n) + " stations");
  std::vector<double> out(n * n, 0.0);
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t k = 0; k <= i; ++k) out[i * n + k] = matrix[k * n + i];
  }
  return out;
}

}  // namespace

ShapePrior::ShapePrior(const ShapeKnowledge& knowledge)
    : knowledge_(knowledge), stations_(knowledge.height.size()), directions_(knowledge.angle_degrees.size()),
      round_(squared_exponential(knowledge.height, kRoundStrokes)), oval_(squared_exponential(knowledge.height, kOvalStrokes)),
      smooth_(squared_exponential(knowledge.height, kSmoothStrokes)), round_factor_(lower_factor(round_, stations_)),
      oval_factor_(lower_factor(oval_, stations_)) {
  for (const double angle : knowledge.angle_degrees) {
    cosine_.push_back(cosine_of_degrees(2.0 * angle));
    sine_.push_back(sine_of_degrees(2.0 * angle));
  }
}

std::vector<double> ShapePrior::textbook_profile(double strokes) const {
  std::vector<double> out(stations_, 1.0);
  for (std::size_t h = 0; h < stations_; ++h) out[h] = textbook_wear(knowledge_.pattern, knowledge_.height[h], strokes);
  return out;
}

double ShapePrior::as_made_sd(bool loose) const {
  return loose ? kLooseUm : kAsMadeCommon * knowledge_.tolerance_um.value_or(kUnknownToleranceUm);
}

BlockPrior ShapePrior::law(const ShapeScales& scales, const std::vector<double>& profile) const {
  std::vector<double> worn(stations_);
  for (std::size_t h = 0; h < stations_; ++h) worn[h] = knowledge_.wears[h] ? profile[h] : 0.0;
  const std::size_t cells = stations_ * directions_;
  BlockPrior law{cells, 2 * (stations_ + 1) + 2, std::vector<double>(cells), {}, {}};
  law.shared.assign(cells * law.shared_columns, 0.0);
  law.own.assign(cells * cells, 0.0);
  const double oval_um = scales.ovality * scales.wear_um / 2.0;
  for (std::size_t h = 0; h < stations_; ++h) {
    for (std::size_t d = 0; d < directions_; ++d) {
      law.mean[h * directions_ + d] =
          knowledge_.as_made_um + scales.wear_um * worn[h] + kOvalMean * oval_um * worn[h] * cosine_[d];
    }
  }
  add_shared(scales, worn, law);
  add_own(scales, worn, law);
  return law;
}

namespace {

/// √f of G: floored where the surface wears at all.
std::vector<double> departing(const std::vector<double>& worn, const std::vector<bool>& wears) {
  std::vector<double> out(worn.size(), 0.0);
  for (std::size_t h = 0; h < worn.size(); ++h) {
    if (wears[h]) out[h] = std::sqrt(std::max(worn[h], kDepartureFloor));
  }
  return out;
}

}  // namespace

void ShapePrior::add_shared(const ShapeScales& scales, const std::vector<double>& worn, BlockPrior& law) const {
  const std::size_t q = law.shared_columns;
  const std::vector<double> root = departing(worn, knowledge_.wears);
  const double oval_um = scales.ovality * scales.wear_um / 2.0;
  const double oval_sd = std::sqrt(kCommonOval) * oval_um;
  const double by_profile = std::sqrt(1.0 - scales.departure / 2.0);
  const double by_itself = std::sqrt(scales.departure / 2.0);
  for (std::size_t h = 0; h < stations_; ++h) {
    for (std::size_t d = 0; d < directions_; ++d) {
      double* const row = law.shared.data() + (h * directions_ + d) * q;
      row[0] = kCommonWear * scales.wear_um * worn[h];
      row[stations_ + 1] = oval_sd * by_profile * worn[h] * cosine_[d];
      for (std::size_t k = 0; k <= h; ++k) {
        row[1 + k] = scales.departure * scales.wear_um * root[h] * round_factor_[h * stations_ + k];
        row[stations_ + 2 + k] = knowledge_.wears[h] ? oval_sd * by_itself * oval_factor_[h * stations_ + k] * cosine_[d] : 0.0;
      }
      row[as_made_column()] = as_made_sd(scales.loose);
      row[as_made_column() + 1] = scales.even_oval_um * cosine_[d];
    }
  }
}

void ShapePrior::add_own(const ShapeScales& scales, const std::vector<double>& worn, BlockPrior& law) const {
  const std::vector<double> root = departing(worn, knowledge_.wears);
  const double oval_um = scales.ovality * scales.wear_um / 2.0;
  const double wear_sd = scales.likeness * scales.wear_um;
  const double departure_sd = scales.departure * wear_sd;
  const double as_made_sd = kAsMadeOwn * knowledge_.tolerance_um.value_or(kUnknownToleranceUm);
  const double rough = scales.roughness_um * scales.roughness_um;
  const double even = scales.even_oval_um * scales.even_oval_um;
  const std::vector<double> fading = scales.clamped_oval_um > 0.0 ? textbook_profile(kClampedStrokes) : std::vector<double>(stations_, 0.0);
  const double clamped = scales.clamped_oval_um * scales.clamped_oval_um;
  const std::size_t cells = law.cells;
  for (std::size_t h = 0; h < stations_; ++h) {
    for (std::size_t k = 0; k < stations_; ++k) {
      const std::size_t hk = h * stations_ + k;
      const bool both = knowledge_.wears[h] && knowledge_.wears[k];
      const double profile = worn[h] * worn[k];
      const double round = wear_sd * wear_sd * profile + departure_sd * departure_sd * root[h] * root[k] * round_[hk] +
                           rough * smooth_[hk] + as_made_sd * as_made_sd;
      const double shape = (1.0 - scales.departure / 2.0) * profile + (both ? scales.departure / 2.0 * oval_[hk] : 0.0);
      const double oval = kOwnOval * oval_um * oval_um * shape + even +
                          (kOvalSmoothShare * rough + clamped * fading[h] * fading[k]) * smooth_[hk];
      const double askew = knowledge_.three_directions ? kSkewed * oval : 0.0;
      for (std::size_t d = 0; d < directions_; ++d) {
        for (std::size_t e = 0; e < directions_; ++e) {
          law.own[(h * directions_ + d) * cells + k * directions_ + e] =
              round + oval * cosine_[d] * cosine_[e] + askew * sine_[d] * sine_[e];
        }
      }
    }
  }
  for (std::size_t c = 0; c < cells; ++c) law.own[c * cells + c] += scales.texture_um * scales.texture_um;
}

}  // namespace fettle
