#include "advice/asked_again.h"

#include <algorithm>

#include "numeric/elementary.h"

namespace fettle {
namespace {

// Common practice, no source: see docs/NUMBERS.md, "When a reading is asked again". Lengths in mm.
constexpr double kDoubts = 3.0;            ///< standard uncertainties left to every edge
constexpr double kLeastLeeway = 0.008;     ///< beyond the edge of a new part, or of the part's own foot
constexpr double kOutOfTrueAsNew = 0.02;   ///< of one new part along and across itself, with what clamping adds
constexpr double kWearBeyondLimit = 4.0;   ///< times the wear that the service limit allows ...
constexpr double kLeastWear = 0.25;        ///< ... and at least so much
constexpr double kSpreads = 1.5;           ///< times the spread of what was read before, beyond its ends
constexpr double kLeastSpread = 0.06;
constexpr double kLeastSpreadOfLike = 0.15;
constexpr double kFarOutside = 0.1;        ///< beyond an edge: no slip need explain it
constexpr std::size_t kFewestToSpread = 2;
constexpr double kUnknownWidth = 1.0;
constexpr int kNormals = 8;
constexpr double kNormalsOverlap = 0.7;   ///< sd of one over the way to the next: flat to 2 % inside
constexpr double kLeastSd = 0.001;

/// Sizes turned so that wear makes them larger.
struct Band {
  std::optional<double> low;
  OutOfBand low_is = OutOfBand::as_new;
  std::optional<double> high;
  OutOfBand high_is = OutOfBand::worn;

  void raise_low(double edge, OutOfBand why) {
    if (low && *low >= edge) return;
    low = edge;
    low_is = why;
  }
  void drop_high(double edge, OutOfBand why) {
    if (high && *high <= edge) return;
    high = edge;
    high_is = why;
  }
};

struct Spread {
  double least;
  double most;
};

Spread spread_of(const std::vector<double>& sizes, double sign) {
  Spread out{sign * sizes.front(), sign * sizes.front()};
  for (const double each : sizes) {
    out.least = std::min(out.least, sign * each);
    out.most = std::max(out.most, sign * each);
  }
  return out;
}

Band band_of(const PlaceKnown& place, double sign) {
  Band out;
  const double leeway = std::max(kLeastLeeway, kDoubts * place.doubt);
  const double own_leeway = std::max(kLeastLeeway, kDoubts * place.doubt_of_reading);
  const auto& as_new = sign > 0 ? place.new_low : place.new_high;
  const auto& as_worn = sign > 0 ? place.new_high : place.new_low;
  if (as_new) out.raise_low(sign * *as_new - leeway, OutOfBand::as_new);
  if (as_worn) {
    const double allowed = place.service ? kWearBeyondLimit * (sign * *place.service - sign * *as_worn) : 0.0;
    out.drop_high(sign * *as_worn + std::max(allowed, kLeastWear) + leeway, OutOfBand::worn);
  }
  if (place.foot) {
    out.raise_low(sign * *place.foot - kOutOfTrueAsNew - own_leeway, OutOfBand::apart);
  }
  if (place.same_part.size() >= kFewestToSpread) {
    const Spread own = spread_of(place.same_part, sign);
    const double beyond = std::max(kLeastSpread, kSpreads * (own.most - own.least)) + own_leeway;
    out.raise_low(own.least - beyond, OutOfBand::apart);
    out.drop_high(own.most + beyond, OutOfBand::apart);
  } else if (place.like_parts.size() >= kFewestToSpread && !as_worn) {
    const Spread like = spread_of(place.like_parts, sign);
    const double beyond = std::max(kLeastSpreadOfLike, kSpreads * (like.most - like.least)) + leeway;
    out.raise_low(like.least - beyond, OutOfBand::apart);
    out.drop_high(like.most + beyond, OutOfBand::apart);
  }
  return out;
}

bool inside(const Band& band, double turned) { return (!band.low || turned >= *band.low) && (!band.high || turned <= *band.high); }

}  // namespace

std::optional<AskedAgain> asked_again(double size_mm, const PlaceKnown& place, const std::vector<Supposed>& supposed) {
  if (place.feature == Feature::figure) return std::nullopt;
  const double sign = place.feature == Feature::inside ? 1.0 : -1.0;
  const double turned = sign * size_mm;
  const Band band = band_of(place, sign);
  if (inside(band, turned)) return std::nullopt;
  const bool below = band.low && turned < *band.low;
  AskedAgain out{below ? band.low_is : band.high_is, std::nullopt, !below};
  for (const Supposed& each : supposed) {
    if (!inside(band, sign * each.size_mm)) continue;
    out.slip = each.slip;
    return out;
  }
  const double beyond = below ? *band.low - turned : turned - *band.high;
  if (beyond > kFarOutside) return out;
  return std::nullopt;
}

Forecast forecast_of(const PlaceKnown& place) {
  const double sign = place.feature == Feature::outside ? -1.0 : 1.0;
  const Band band = band_of(place, sign);
  if (!band.low && !band.high) return {};
  const double low = band.low.value_or(band.high.value_or(0.0) - kUnknownWidth);
  const double high = std::max(band.high.value_or(low + kUnknownWidth), low);
  const double step = (high - low) / kNormals;
  const double sd = std::max({step * kNormalsOverlap, place.doubt, kLeastSd});
  Forecast out;
  for (int i = 0; i < kNormals; ++i) out.push_back({-natural_log(static_cast<double>(kNormals)), sign * (low + (i + 0.5) * step), sd});
  return out;
}

std::string_view slip_name(Slip slip) {
  switch (slip) {
    case Slip::needle_side: return "needle-side";
    case Slip::dial_turn: return "dial-turn";
    case Slip::thimble_turn: return "thimble-turn";
    case Slip::thimble_line: return "thimble-line";
    case Slip::digits_exchanged: return "digits-exchanged";
    case Slip::decimal_mark: return "decimal-mark";
  }
  return "";
}

}  // namespace fettle
