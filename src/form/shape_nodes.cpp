#include "form/shape_nodes.h"

#include <span>

namespace fettle {
namespace {

// Spread apart by 2 to 4: the data fix the wear within a factor of two.
constexpr double kWear[] = {3.0, 12.0, 30.0, 60.0, 120.0};
constexpr double kLittleWear = 20.0;
constexpr double kLooseKnownStep = 0.15;
constexpr double kLooseUnknownStep = 0.5;
constexpr double kEvenDeparture = 0.3;
constexpr double kMiddleLikeness = 0.3;
constexpr double kMiddleOvality = 0.3;
constexpr double kProfileStrokes[] = {0.25, 0.6};
constexpr double kFarFromTextbook = 0.45;
constexpr double kHoned = 2.0;      // texture of a honed surface, um
constexpr double kDistorted = 4.9;  // where the part is distorted
constexpr double kTorn = 12.0;      // of a corroded or torn one

/// Departures that have nothing to do with wear, with a prior weight. Ovality is apart from the rest: a distorted
/// casting or a set-up of the boring bar leaves it even along the length, bolting on a head leaves it at the first
/// station and less below.
struct Departures {
  double roughness_um;
  double texture_um;
  double even_oval_um;
  double clamped_oval_um;
  double weight;
};
constexpr Departures kUsualDepartures[] = {
    {1.0, kHoned, 1.0, 0.0, 0.18}, {1.0, kHoned, 4.0, 0.0, 0.18}, {1.0, kHoned, 12.0, 0.0, 0.12},
    {1.0, kHoned, 1.0, 8.0, 0.07}, {5.0, kHoned, 1.0, 0.0, 0.10}, {12.0, kDistorted, 8.5, 0.0, 0.05},
    {2.0, kTorn, 2.0, 0.0, 0.30},
};
constexpr Departures kAnyDepartures[] = {
    {5.0, kHoned, 3.5, 0.0, 1.0}, {12.0, kDistorted, 8.5, 0.0, 1.0}, {30.0, kTorn, 21.0, 0.0, 1.0}};
/// Of the first pass, which cannot tell ovality from ovality: as much of it as of anything else.
constexpr double kEvenOvalOfRoughness = 0.7;

/// Only a surface that has a top is clamped at it.
bool may_be(const Departures& each, const ShapeKnowledge& knowledge) {
  return each.clamped_oval_um <= 0.0 || knowledge.pattern == WearPattern::from_first;
}

double loose_weight(const ShapeKnowledge& knowledge, ShapeFreedom freedom) {
  if (freedom != ShapeFreedom::usual || !knowledge.tolerance_um) return 1.0;
  switch (knowledge.history) {
    case SizeHistory::stated: return kLooseKnownStep;
    case SizeHistory::unknown: return kLooseUnknownStep;
  }
  return kLooseKnownStep;
}

/// Both branches of "as made", each with its weight; a branch of no weight is left out.
void add_branches(const ShapeScales& scales, double prior, double loose, std::vector<WeightedScales>& out) {
  for (const bool is_loose : {false, true}) {
    const double weight = prior * (is_loose ? loose : 1.0 - loose);
    if (weight <= 0.0) continue;
    out.push_back({scales, weight});
    out.back().scales.loose = is_loose;
  }
}

}  // namespace

std::vector<WeightedScales> first_pass_scales(const ShapeKnowledge& knowledge, ShapeFreedom freedom) {
  std::vector<WeightedScales> out;
  if (!learns_its_profile(knowledge.pattern)) return out;
  const double loose = loose_weight(knowledge, freedom);
  for (const double wear : kWear) {
    for (const double profile : kProfileStrokes) {
      for (const double departure : {0.08, kFarFromTextbook}) {
        if (wear < kLittleWear && departure > 0.08) continue;
        for (const double roughness : {3.0, 10.0}) {
          add_branches({wear, kMiddleLikeness, kMiddleOvality, departure, roughness, kHoned,
                        kEvenOvalOfRoughness * roughness, 0.0, profile, false},
                       1.0, loose, out);
        }
      }
    }
  }
  return out;
}

std::vector<WeightedScales> second_pass_scales(const ShapeKnowledge& knowledge, ShapeFreedom freedom) {
  const bool any_shape = freedom == ShapeFreedom::any_shape;
  const std::vector<double> departures = any_shape                                ? std::vector<double>{1.0}
                                         : learns_its_profile(knowledge.pattern) ? std::vector<double>{0.06, 0.3}
                                                                                 : std::vector<double>{kEvenDeparture};
  const std::span<const Departures> others = any_shape ? std::span<const Departures>(kAnyDepartures) : kUsualDepartures;
  const double loose = loose_weight(knowledge, freedom);
  std::vector<WeightedScales> out;
  for (const double wear : kWear) {
    for (const double likeness : {0.15, 0.6}) {
      if (wear < kLittleWear && likeness > 0.3) continue;
      for (const double ovality : {0.02, 0.15, 0.5}) {
        for (const double departure : departures) {
          if (wear < kLittleWear && departure == 0.3 && departures.size() > 1) continue;
          for (const Departures& each : others) {
            if (!may_be(each, knowledge)) continue;
            add_branches({wear, likeness, ovality, departure, each.roughness_um, each.texture_um, each.even_oval_um,
                          each.clamped_oval_um, 0.0, false},
                         each.weight, loose, out);
          }
        }
      }
    }
  }
  return out;
}

std::vector<WeightedScales> lone_part_scales(const ShapeKnowledge& knowledge, ShapeFreedom freedom) {
  const double loose = loose_weight(knowledge, freedom);
  std::vector<WeightedScales> out;
  for (const double wear : kWear) {
    for (const double profile : kProfileStrokes) {
      for (const double ovality : {0.02, 0.15, 0.5}) {
        for (const double departure : {0.06, kFarFromTextbook}) {
          if (wear < kLittleWear && departure == kFarFromTextbook) continue;
          for (const Departures& each : kUsualDepartures) {
            if (!may_be(each, knowledge)) continue;
            add_branches({wear, kMiddleLikeness, ovality, departure, each.roughness_um, each.texture_um, each.even_oval_um,
                          each.clamped_oval_um, profile, false},
                         each.weight, loose, out);
          }
        }
      }
    }
  }
  return out;
}

}  // namespace fettle
