#pragma once

#include <algorithm>
#include <cmath>
#include <map>
#include <stdexcept>

#include "form/shape_estimate.h"
#include "form/shape_group.h"
#include "numeric/draws.h"

/// Parts and readings made by hand, for tests only.
namespace fettle::bench_by_hand {

// Invented: parts of 84 mm that are made to 0 to +20 µm, so that the model counts from 84.010 mm.
inline constexpr double kMiddleMm = 84.010;
inline constexpr double kRepeatUm = 3.0;
inline const std::map<std::string, MadeTo> kMade = {
    {"cylinder-bore", {Length::counts(840'000'000), Length::counts(840'200'000), Length::counts(840'000'000)}}};

inline Layout bore_layout() {
  const auto depth = [](std::int64_t mm) { return Length::counts(mm * Length::kCountsPerMillimetre); };
  return {{{"top", StationRole::first, true, depth(12)},
           {"mid", StationRole::middle, true, depth(55)},
           {"bottom", StationRole::last, true, depth(98)},
           {"foot", StationRole::reference, false, depth(118)}},
          {{"thrust", Ratio(0), true}, {"pin", Ratio(90), true}}};
}

/// Parts and readings made by hand.
struct Bench {
  std::vector<PartOnBench> parts;
  SizeSet set;

  std::size_t source(const std::string& component, ErrorScope scope, double sd_um) {
    set.sources.push_back({component + std::to_string(set.sources.size()), component, scope, ErrorShape::normal, sd_um / 1000.0, {}, "test"});
    return set.sources.size() - 1;
  }
  void add_part(const std::string& id, const std::string& kind, Feature feature, WearPattern wear, Condition condition = Condition::worn) {
    parts.push_back({{id, kind, id, std::nullopt, {StepKind::standard, std::nullopt, ""}, condition}, feature, bore_layout(), Ratio(), KindWear{wear, std::nullopt, {}, ""}});
  }
  /// One reading of `um` above the middle, under errors that it shares.
  void read(const std::string& part, std::size_t cell, double um, const std::vector<std::size_t>& shared, double repeat_um = kRepeatUm,
            double division_um = 1.0) {
    Size size{"r" + std::to_string(set.sizes.size()), part, "set-1", cell, Ratio(), kMiddleMm + um / 1000.0, {}};
    for (const std::size_t each : shared) size.terms.push_back({each, 1.0});
    size.terms.push_back({source("repeat", ErrorScope::reading, repeat_um), 1.0});
    size.terms.push_back({source("rounding", ErrorScope::reading, division_um / std::sqrt(12.0)), 1.0});
    set.sizes.push_back(std::move(size));
  }
  [[nodiscard]] std::vector<GroupEstimate> estimate(const std::map<std::string, MadeTo>& made = kMade) const {
    ShapeMemory memory;
    return estimate_groups(parts, set, made, memory);
  }
};

/// How worn a bore is in µm, by cell: the most at the top, a quarter of it oval, nothing at the foot; and a little that is its own.
inline std::vector<double> wear(double most_um, Generator& generator) {
  std::vector<double> out;
  for (const double share : {1.0, 0.4, 0.15, 0.0}) {
    for (const double oval : {1.0, 0.75}) out.push_back(most_um * share * oval + 2.0 * generator.normal());
  }
  return out;
}

struct Told {
  double setting_um = 4.5;
  double repeat_um = kRepeatUm;
  double division_um = 1.0;
  double added_um = 0.0;  ///< to every reading
};

/// Bores worn by `most` under one setting.
inline Bench bores(const std::vector<double>& most, const Told& told = {}) {
  Bench bench;
  const std::size_t setting = bench.source("finding-zero", ErrorScope::setting, told.setting_um);
  Generator generator(31, 4);
  for (std::size_t p = 0; p < most.size(); ++p) {
    const std::string id = "bore-" + std::to_string(p + 1);
    bench.add_part(id, "cylinder-bore", Feature::inside, WearPattern::from_first);
    const std::vector<double> um = wear(most[p], generator);
    for (std::size_t c = 0; c < um.size(); ++c) bench.read(id, c, um[c] + told.added_um, {setting}, told.repeat_um, told.division_um);
  }
  return bench;
}

inline const ShapeGroup& shape(const std::vector<GroupEstimate>& groups, std::size_t at = 0) {
  if (!groups[at].shape) throw std::runtime_error("no shape estimate");
  return *groups[at].shape;
}

inline bool said(const std::vector<Message>& messages, const std::string& key) {
  return std::any_of(messages.begin(), messages.end(), [&](const Message& each) { return each.key == key; });
}

inline double mean_um(const ShapeGroup& group, std::size_t block, std::size_t cell) {
  return 1000.0 * (place_posterior(group, block, cell).mean_mm - kMiddleMm);
}

}  // namespace fettle::bench_by_hand
