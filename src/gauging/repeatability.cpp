#include "gauging/repeatability.h"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace fettle {
namespace {

constexpr std::string_view kRepeat = "repeat";
constexpr std::string_view kRounding = "rounding";
constexpr double kStatedCounts = 6.0;

struct Scatter {
  double squares = 0.0;   ///< of deviations from the place's mean, mm²
  double rounding = 0.0;  ///< what rounding alone is expected to add to them
  std::size_t degrees_of_freedom = 0;
  double stated = 0.0;
};

/// Standard uncertainty (mm) of a component of one size; 0 if it has none.
double uncertainty_of(const Size& size, const SizeSet& set, std::string_view component) {
  for (const ErrorTerm& term : size.terms) {
    const ErrorSource& source = set.sources[term.source];
    if (source.component == component && source.scope == ErrorScope::reading) return std::abs(term.coefficient) * source.standard_uncertainty;
  }
  return 0.0;
}

void add_place(const std::vector<const Size*>& sizes, const SizeSet& set, Scatter& scatter) {
  const double n = static_cast<double>(sizes.size());
  double mean = 0.0;
  for (const Size* size : sizes) mean += size->estimate / n;
  for (const Size* size : sizes) {
    scatter.squares += (size->estimate - mean) * (size->estimate - mean);
    const double rounding = uncertainty_of(*size, set, kRounding);
    scatter.rounding += rounding * rounding * (n - 1.0) / n;
  }
  scatter.degrees_of_freedom += sizes.size() - 1;
  scatter.stated = uncertainty_of(*sizes.front(), set, kRepeat);
}

}  // namespace

std::vector<LearnedRepeatability> learn_repeatability(SizeSet& set, const std::map<std::string, std::string>& gauge_of_setting) {
  std::map<std::tuple<std::string, std::size_t, std::string>, std::vector<const Size*>> places;
  for (const Size& size : set.sizes) places[{size.part, size.cell, size.setting}].push_back(&size);
  std::map<std::string, Scatter> by_gauge;
  for (const auto& [key, sizes] : places) {
    const auto gauge = gauge_of_setting.find(std::get<2>(key));
    if (sizes.size() > 1 && gauge != gauge_of_setting.end()) add_place(sizes, set, by_gauge[gauge->second]);
  }
  std::vector<LearnedRepeatability> out;
  for (const auto& [gauge, scatter] : by_gauge) {
    if (scatter.stated <= 0.0) continue;  // the job says that this gauge repeats without error
    const double nu = static_cast<double>(scatter.degrees_of_freedom);
    const double learned = std::sqrt((kStatedCounts * scatter.stated * scatter.stated + std::max(scatter.squares - scatter.rounding, 0.0)) /
                                     (kStatedCounts + nu));
    out.push_back({gauge, scatter.degrees_of_freedom, scatter.stated, learned});
    for (const Size& size : set.sizes) {
      const auto of = gauge_of_setting.find(size.setting);
      if (of == gauge_of_setting.end() || of->second != gauge) continue;
      for (const ErrorTerm& term : size.terms) {
        ErrorSource& source = set.sources[term.source];
        if (source.component != kRepeat || source.scope != ErrorScope::reading) continue;
        source.standard_uncertainty *= learned / scatter.stated;
        source.origin += "; learned from " + std::to_string(scatter.degrees_of_freedom) + " repeats";
      }
    }
  }
  return out;
}

}  // namespace fettle
