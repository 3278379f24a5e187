#include "gauging/needle.h"

#include "base/assertion.h"

namespace fettle {

int size_per_clockwise(Feature touches, NeedleSide pressed_in) {
  const int per_press = size_per_press(touches);
  return pressed_in == NeedleSide::clockwise ? per_press : -per_press;
}

NeedlePlace needle_place(const Ratio& deviation_counts, Length division, std::optional<Length> turn, int per_clockwise) {
  FETTLE_ASSERT(division.counts() > 0, std::to_string(division.counts()));
  const Ratio clockwise = deviation_counts * Ratio(per_clockwise);
  NeedlePlace place{0, absolute(clockwise), std::nullopt};
  if (clockwise.sign() != 0) place.side = clockwise.sign() > 0 ? NeedleSide::clockwise : NeedleSide::anticlockwise;
  if (turn && turn->counts() > 0) {
    const Ratio turns = place.divisions / turn->ratio();
    place.turns = static_cast<std::int64_t>(turns.numerator() / turns.denominator());
    place.divisions = place.divisions - turn->ratio() * Ratio(place.turns);
  }
  place.divisions = place.divisions / division.ratio();
  return place;
}

}  // namespace fettle
