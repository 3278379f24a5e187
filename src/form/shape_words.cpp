#include "form/shape_words.h"

#include <algorithm>
#include <cmath>

#include "base/assertion.h"
#include "catalogue/catalogue.h"

namespace fettle {
namespace {

/// Never rises from one station to any later one by more than `play`.
bool falls(const std::vector<double>& sizes, double play) {
  double lowest = sizes.front();
  for (double size : sizes) {
    if (size > lowest + play) return false;
    lowest = std::min(lowest, size);
  }
  return true;
}

std::vector<double> negated(std::vector<double> sizes) {
  for (double& size : sizes) size = -size;
  return sizes;
}

/// Some station between the ends is larger than both of them, and none is smaller than both.
bool bulges(const std::vector<double>& sizes, double play) {
  const double high = std::max(sizes.front(), sizes.back());
  const double low = std::min(sizes.front(), sizes.back());
  bool out = false;
  for (double size : sizes) {
    if (size > high + play) out = true;
    if (size < low - play) return false;
  }
  return out;
}

ShapeWord word_of(const std::vector<double>& sizes, double play) {
  const auto [low, high] = std::minmax_element(sizes.begin(), sizes.end());
  if (*high - *low <= play) return ShapeWord::even;
  const std::vector<double> upside_down = negated(sizes);
  if (bulges(sizes, play)) return ShapeWord::barrel;
  if (bulges(upside_down, play)) return ShapeWord::waist;
  if (sizes.front() - sizes.back() > play && falls(sizes, play)) return ShapeWord::tapering_to_last;
  if (sizes.back() - sizes.front() > play && falls(upside_down, play)) return ShapeWord::tapering_to_first;
  return ShapeWord::uneven;
}

std::string key_of(ShapeWord word, Feature feature) {
  switch (word) {
    case ShapeWord::even: return "shape.even";
    case ShapeWord::tapering_to_last: return "shape.tapering_to_last";
    case ShapeWord::tapering_to_first: return "shape.tapering_to_first";
    case ShapeWord::barrel: return "shape.barrel";
    case ShapeWord::waist: return feature == Feature::inside ? "shape.bell_mouthed" : "shape.waist";
    case ShapeWord::uneven: return "shape.uneven";
  }
  return {};
}

Ratio counts_of(double millimetres) {
  return Ratio(static_cast<Int128>(std::llround(millimetres * static_cast<double>(Length::kCountsPerMillimetre))));
}

}  // namespace

ShapeFinding shape_word(const ShapeQuestion& question) {
  FETTLE_ASSERT(question.stations.size() >= 2, "a shape needs two stations");
  std::vector<double> sizes;
  for (const StationSize& each : question.stations) sizes.push_back(each.size_mm);
  const ShapeWord word = word_of(sizes, 2.0 * question.difference_uncertainty_mm);
  const auto [low, high] = std::minmax_element(sizes.begin(), sizes.end());
  const auto station = [&](auto place) { return question.stations[static_cast<std::size_t>(place - sizes.begin())].station; };
  return {word,
          {key_of(word, question.feature),
           {direction_argument("direction", question.direction),
            length_argument("difference", counts_of(*high - *low), question.unit, fine_decimals(question.unit)),
            station_argument("largest", station(high)), station_argument("smallest", station(low))}}};
}

}  // namespace fettle
