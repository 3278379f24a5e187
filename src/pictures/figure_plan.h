#pragma once

#include <optional>

#include "pictures/section_plan.h"

namespace fettle {

/// How a figure is seen: what shows where its places lie and what the gauge does there.
enum class FigureSeen { clock, face_lines, face_points, shaft, tunnel, spring, gap, depth, thickness, pressure };

/// From the names of its places where they tell it (o'clock, lines along and across, a gap), else from its kind. Nothing: no drawing is
/// better than a wrong one.
[[nodiscard]] std::optional<FigureSeen> figure_seen(const PartToDraw& part);

/// The plan of a figure that can be drawn, in the size and with the groups of plan_picture: one simple form for many kinds, not to scale.
/// Where the hand is, is blue; the direction's name stands below where there are several. Kept by FigurePlan.*.
[[nodiscard]] Drawing figure_plan(const PartToDraw& part, FigureSeen seen, Language language);

}  // namespace fettle
