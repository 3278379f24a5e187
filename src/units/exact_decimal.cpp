#include "units/exact_decimal.h"

#include <algorithm>

namespace fettle {
namespace {

constexpr int kMostPlaces = 18;

/// Takes a factor out of `value` as often as it is in it.
int take_out(Int128& value, int factor) {
  int times = 0;
  for (; value % factor == 0; value /= factor) ++times;
  return times;
}

}  // namespace

std::optional<std::string> exact_decimal(const Ratio& value) {
  Int128 left = value.denominator();
  const int twos = take_out(left, 2);
  const int fives = take_out(left, 5);
  const int places = std::max(twos, fives);
  if (left != 1 || places > kMostPlaces) return std::nullopt;
  return value.decimal(places);
}

}  // namespace fettle
