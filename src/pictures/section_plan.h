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

/// The part cut along its axis, seen from where the person stands: 200 x 120. Every place that is there is a group of class "place" with
/// data-place "station/direction"; the one that is lit has the class "lit" as well. Inside it, groups of the class "when-lit" hold the
/// height's arrow, the gauge as it lies and the station's name: the page shows them only where the group is lit. An area without fill
/// and stroke answers to a tap. Text equivalent: stations from first to last with their depths, and the directions.
[[nodiscard]] Drawing section_picture(const PartToDraw& part, Language language);

/// The part from above (from its end), near side at the bottom: 160 x 120. Groups as in the section; when lit, the gauge lies across in
/// the place's direction. 0° lies towards the person, others clockwise. With `thrust_side`: "as you stand at the exhaust side".
[[nodiscard]] Drawing plan_picture(const PartToDraw& part, Language language);

}  // namespace fettle
