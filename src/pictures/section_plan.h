#pragma once

#include <optional>
#include <string>

#include "catalogue/layout.h"
#include "drawing/drawing.h"
#include "text/sentence.h"

namespace fettle {

/// A part whose places are to be shown. `kind` chooses the outline: a bore with its face, a piston, a journal; others by their feature.
struct PartToDraw {
  std::string name;  ///< "Bore 2", in the reader's language
  std::string kind;
  Feature feature;
  Layout layout;
  UnitId unit;                             ///< of the depths
  std::optional<std::string> thrust_side;  ///< as it was typed for the engine ("exhaust"): where the person stands
  std::optional<std::size_t> lit;          ///< cell where the hand is now, for pictures that no page lights; nothing: none
};

/// The part cut along its axis: 180 x 120. A bore as seen from where the person stands, so that 0° points at the reader; a shaft lying,
/// 0° upright; a piston along its pin, 0° across. Every place that is there is a group of class "place" with data-place
/// "station/direction"; the one that is lit has the class "lit" as well. Inside it, a group of the class "when-lit" holds the height's
/// arrow, the gauge as it lies (end on where it points at the reader) and the station's name: the page shows it only where the place is
/// lit. An area without fill and stroke answers to a tap; those of all places cover the section. What has no round shape is a table of
/// its places. Text equivalent: stations from first to last with their depths, the directions, and the place that is lit. Kept by
/// SectionPicture.*.
[[nodiscard]] Drawing section_picture(const PartToDraw& part, Language language);

/// The part from its end, near side at the bottom: 148 x 120. Groups as in the section, without areas for taps, which would not tell the
/// height; when lit, the gauge lies across in the place's direction. 0° lies towards the person (of a piston: to the side), others
/// clockwise. With `thrust_side`: "your side: exhaust side". Kept by PlanPicture.*.
[[nodiscard]] Drawing plan_picture(const PartToDraw& part, Language language);

}  // namespace fettle
