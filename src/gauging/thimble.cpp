#include "gauging/thimble.h"

#include <algorithm>

#include "base/assertion.h"

namespace fettle {
namespace {

constexpr int kMostDecimals = 7;

/// Decimals that the unit needs for a whole number of divisions.
int decimals_of(const Ratio& in_unit_of_its_own) {
  int decimals = 0;
  while (decimals < kMostDecimals && !(in_unit_of_its_own * Ratio::power_of_ten(decimals)).is_whole()) ++decimals;
  return decimals;
}

Length whole(const Ratio& counts) {
  const auto out = counts.rounded().whole64();
  FETTLE_ASSERT(out.has_value(), counts.decimal(1));
  return Length::counts(*out);
}

}  // namespace

ThimblePlace thimble_place(const KnownGauge& micrometer, const Ratio& lines, Length wanted) {
  FETTLE_ASSERT(micrometer.division && micrometer.division->counts() > 0, micrometer.id);
  const Unit& unit = unit_definition(micrometer.own_unit);
  const Length shown = whole(lines * micrometer.division->ratio());
  const int decimals = std::max(decimals_of(micrometer.division->ratio() / unit.factor), micrometer.zero_decimals);
  return {shown, in_unit(shown.ratio(), unit.id, decimals), unit.id, shown - micrometer.zero_error, shown - micrometer.zero_error - wanted};
}

std::optional<ThimbleChoice> thimble_choice(const KnownGauge& micrometer, Length wanted) {
  if (micrometer.marked || !micrometer.division || micrometer.division->counts() <= 0) return std::nullopt;
  const Ratio lines = ((wanted + micrometer.zero_error).ratio() / micrometer.division->ratio()).rounded();
  return ThimbleChoice{thimble_place(micrometer, lines, wanted), thimble_place(micrometer, lines - Ratio(1), wanted),
                       thimble_place(micrometer, lines + Ratio(1), wanted)};
}

}  // namespace fettle
