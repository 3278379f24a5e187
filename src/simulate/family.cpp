#include "simulate/family.h"

#include <algorithm>

#include "base/assertion.h"
#include "catalogue/catalogue.h"
#include "numeric/elementary.h"

namespace fettle {
namespace {

constexpr double kBellAtTheEnd = 0.7;
constexpr double kBelowTheStep = 0.15;

/// exp(−x), nothing past where it would be no normal number.
double fading(double x) { return x > 700.0 ? 0.0 : exponential(-x); }

/// Below the last station as at it.
double bell(double below, double length) {
  const double x = std::min(1.0, below);
  return fading(x / length) + kBellAtTheEnd * fading((1.0 - x) / length);
}

}  // namespace

bool is_gaussian(const EngineFamily& family) {
  return !family.odd_part && std::none_of(family.components.begin(), family.components.end(),
                                          [](const Component& each) { return each.scatter == Scatter::one_sided; });
}

double wear_sign(const EngineFamily& family) { return family.feature == Feature::outside ? -1.0 : 1.0; }

LimitSide limit_side(const EngineFamily& family, std::string_view definition) {
  const Definition* known = catalogue().definition(definition);
  const bool size = known != nullptr && known->family == Family::size;
  return size && family.feature == Feature::outside ? LimitSide::at_least : LimitSide::at_most;
}

double profile_at(Profile profile, double share, double length) {
  const double x = std::max(0.0, share);
  FETTLE_ASSERT(profile == Profile::even || length > 0.0, std::to_string(length));
  switch (profile) {
    case Profile::even:
      return 1.0;
    case Profile::exponential:
      return fading(x / length);
    case Profile::linear:
      return std::max(0.0, 1.0 - x / length);
    case Profile::barrel: {
      const double off = (x - 0.5) / length;
      return fading(off * off);
    }
    case Profile::bell:
      return bell(x, length) / bell(0.0, length);
    case Profile::step:
      return x < length ? 1.0 : kBelowTheStep;
    case Profile::rising:
      return fading((1.0 - std::min(1.0, x)) / length);
  }
  return 0.0;
}

std::vector<double> depth_shares(const Layout& layout) {
  std::optional<double> first;
  double last = 0.0;
  for (const Station& station : layout.stations) {
    FETTLE_ASSERT(station.depth.has_value(), station.id);
    if (!station.counted) continue;
    last = station.depth->millimetres();
    if (!first) first = last;
  }
  FETTLE_ASSERT(first.has_value(), "no counted station");
  const double way = last > *first ? last - *first : 1.0;
  std::vector<double> out;
  for (const Station& station : layout.stations) out.push_back((station.depth->millimetres() - *first) / way);
  return out;
}

}  // namespace fettle
