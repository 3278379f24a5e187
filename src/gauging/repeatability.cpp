#include "gauging/repeatability.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <tuple>

namespace fettle {
namespace {

constexpr std::array<std::string_view, 3> kOfTheHand = {"repeat", "feel", "transfer"};
constexpr std::string_view kRounding = "rounding";
constexpr double kStatedCounts = 6.0;

double squared(double value) { return value * value; }

struct Scatter {
  double squares = 0.0;   ///< of deviations from the place's mean
  double rounding = 0.0;  ///< what rounding alone is expected to add to them
  std::size_t degrees_of_freedom = 0;
  OwnSpread stated{};
};

void add_place(const std::vector<const Size*>& sizes, const SizeSet& set, Scatter& scatter) {
  const double n = static_cast<double>(sizes.size());
  double mean = 0.0;
  for (const Size* size : sizes) mean += size->estimate / n;
  for (const Size* size : sizes) {
    scatter.squares += squared(size->estimate - mean);
    scatter.rounding += own_spread(*size, set).rounding * (n - 1.0) / n;
  }
  scatter.degrees_of_freedom += sizes.size() - 1;
  scatter.stated = own_spread(*sizes.front(), set);
}

}  // namespace

bool shows_in_repeats(const ErrorSource& source) {
  return source.scope == ErrorScope::reading && std::find(kOfTheHand.begin(), kOfTheHand.end(), source.component) != kOfTheHand.end();
}

OwnSpread own_spread(const Size& size, const SizeSet& set) {
  OwnSpread out;
  for (const ErrorTerm& term : size.terms) {
    const ErrorSource& source = set.sources[term.source];
    const double variance = squared(term.coefficient * source.standard_uncertainty);
    if (source.scope == ErrorScope::reading && source.component == kRounding) out.rounding += variance;
    if (!shows_in_repeats(source)) continue;
    out.repeats += variance;
    out.dimension = source.dimension;
    if (source.degrees_of_freedom) out.counts = std::min(out.counts.value_or(*source.degrees_of_freedom), *source.degrees_of_freedom);
  }
  return out;
}

void put(const PutRepeatability& what, const Size& size, SizeSet& set) {
  for (const ErrorTerm& term : size.terms) {
    ErrorSource& source = set.sources[term.source];
    if (!shows_in_repeats(source)) continue;
    source.standard_uncertainty *= what.factor;
    source.shape = ErrorShape::normal;
    source.degrees_of_freedom = what.degrees_of_freedom;
    source.origin = what.added_to_origin ? source.origin + "; " + what.origin : what.origin;
  }
}

std::optional<Hand> hand_of(const Size& size, const ReadWith& with) {
  const auto gauge = with.gauge_of_setting.find(size.setting);
  if (gauge == with.gauge_of_setting.end()) return std::nullopt;
  const auto person = with.person_of_reading.find(size.reading);
  return Hand{gauge->second, person == with.person_of_reading.end() ? std::string() : person->second};
}

std::vector<LearnedRepeatability> learn_repeatability(SizeSet& set, const ReadWith& with) {
  std::map<std::tuple<std::string, std::size_t, std::string, std::string>, std::vector<const Size*>> places;
  std::map<Hand, Scatter> by_hand;
  for (const Size& size : set.sizes) {
    if (const auto hand = hand_of(size, with)) places[{size.part, size.cell, size.setting, hand->second}].push_back(&size);
  }
  for (const auto& [key, sizes] : places) {
    if (sizes.size() > 1) add_place(sizes, set, by_hand[*hand_of(*sizes.front(), with)]);
  }
  std::vector<LearnedRepeatability> out;
  for (const auto& [hand, scatter] : by_hand) {
    if (scatter.stated.repeats <= 0.0) continue;  // the job says that this gauge repeats without error
    const double nu = static_cast<double>(scatter.degrees_of_freedom);
    const double counts = scatter.stated.counts.value_or(kStatedCounts);
    const double seen = std::max(scatter.squares - scatter.rounding, 0.0);
    const double stated = std::sqrt(scatter.stated.repeats);
    const double learned = std::sqrt((counts * scatter.stated.repeats + seen) / (counts + nu));
    out.push_back({hand.first, hand.second, scatter.degrees_of_freedom, counts, std::sqrt(seen / nu), stated, learned, scatter.stated.dimension});
    const PutRepeatability what{learned / stated, counts + nu, "learned from " + std::to_string(scatter.degrees_of_freedom) + " repeats", true};
    for (const Size& size : set.sizes) {
      if (hand_of(size, with) == hand) put(what, size, set);
    }
  }
  return out;
}

}  // namespace fettle
