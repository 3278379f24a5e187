#pragma once

#include <vector>

#include "form/shape_knowledge.h"

namespace fettle {

/// One setting of the scales that the model integrates over. docs/NUMBERS says where each figure comes from.
struct ShapeScales {
  double wear_um;      ///< w: typical wear at the worst place
  double likeness;     ///< kappa: sd of a part's own wear as a share of w
  double ovality;      ///< o: ovality as a share of half the wear
  double departure;    ///< rho: how far wear leaves its profile
  double roughness_um; ///< r: sd of smooth departures that have nothing to do with wear
  double texture_um;   ///< sd of what each place has of its own
  double even_oval_um; ///< sd of an amplitude of ovality that is the same along the length, whatever wears
  double clamped_oval_um; ///< the same at the first station, fading below it
  double profile_strokes; ///< lambda of the textbook profile; of the first pass only
  bool loose;          ///< not at standard size
};

struct WeightedScales {
  ShapeScales scales;
  double weight;  ///< prior, not normalised
};

/// How much the model may lean on what wear usually looks like.
enum class ShapeFreedom {
  usual,
  loose_level,  ///< the level of the group is not that of a standard size
  any_shape,    ///< and the shape may leave its profile altogether
};

/// The scales of the first pass, which only finds the profile: none for a pattern that is taken as it is.
[[nodiscard]] std::vector<WeightedScales> first_pass_scales(const ShapeKnowledge& knowledge, ShapeFreedom freedom);
/// The scales of the second pass, which the results come from.
[[nodiscard]] std::vector<WeightedScales> second_pass_scales(const ShapeKnowledge& knowledge, ShapeFreedom freedom);
/// The scales of one part by itself under textbook profiles: how like its fellows it is does not matter, how far it may leave its profile
/// does.
[[nodiscard]] std::vector<WeightedScales> lone_part_scales(const ShapeKnowledge& knowledge, ShapeFreedom freedom);

}  // namespace fettle
