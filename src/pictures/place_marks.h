#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "pictures/layout_places.h"
#include "pictures/section_plan.h"
#include "pictures/sketch.h"

// What the section and the plan of a part share.
namespace fettle {

inline constexpr double kSectionWidth = 180.0;
inline constexpr double kPlanWidth = 148.0;
inline constexpr double kPlanHeight = 120.0;  ///< of both
inline constexpr double kLeastPitch = 14.0;   ///< of names under each other
inline constexpr Type kPlaceName = {};
inline constexpr Type kLitName = {kPictureText, Ink::here, Anchor::start, Weight::bold};

enum class PartShapeSeen { bore, piston, journal, table };
[[nodiscard]] PartShapeSeen shape_of(const PartToDraw& part);

/// "12 mm", or nothing where the depth is not known.
[[nodiscard]] std::string depth_words(const Station& station, UnitId unit, Language language);

/// Which names have room: the first always, each further one that stands `least` from the last shown.
[[nodiscard]] std::vector<bool> names_shown(const std::vector<double>& places, double least);

struct Band {
  double high;
  double low;
};
/// What is cleared for a lit name: a name that it would cut in two goes as a whole.
[[nodiscard]] Band band_to_clear(const std::vector<double>& places, const std::vector<bool>& shown, double y);

/// The blue mark of a gauge that lies across, or is seen end on where its half is short.
void add_gauge(Sketch& sketch, Point centre, double half, double degrees, bool outside);

/// The text equivalent of both.
[[nodiscard]] std::string places_description(const PartToDraw& part, Language language);

/// The group of each place that is there: `targets(station, direction)`, then `when_lit(station, direction)` in the group that shows only
/// where the place is lit.
template <class Targets, class WhenLit>
void add_places(Sketch& sketch, const PartToDraw& part, const Targets& targets, const WhenLit& when_lit) {
  const Layout& layout = part.layout;
  for (std::size_t s = 0; s < layout.stations.size(); ++s) {
    for (std::size_t d = 0; d < layout.directions.size(); ++d) {
      const std::size_t cell = layout.cell(s, d);
      if (!layout.there(cell)) continue;
      const bool lit = part.lit == cell;
      sketch.begin(lit ? "place lit" : "place", layout.stations[s].id + "/" + layout.directions[d].id);
      targets(s, d);
      sketch.begin("when-lit", std::nullopt, !lit);
      when_lit(s, d);
      sketch.end();
      sketch.end();
    }
  }
}

}  // namespace fettle
