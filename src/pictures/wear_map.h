#pragma once

#include <optional>
#include <string>
#include <vector>

#include "catalogue/layout.h"
#include "drawing/drawing.h"
#include "form/group_estimate.h"
#include "text/sentence.h"

namespace fettle {

/// Sizes of one part by place, for its wear drawing. mm.
struct WearToDraw {
  std::string name;  ///< "Bore 2"
  Feature feature;   ///< inside or outside
  Layout layout;
  std::vector<std::optional<double>> sizes;  ///< by cell; nothing: not read
  std::optional<double> unworn;  ///< size that counts as no wear; nothing: the least of a bore, the greatest of a journal
  UnitId unit;
  bool estimated;                ///< best estimates, not as measured
};

/// As measured, from the estimate of the part.
[[nodiscard]] WearToDraw wear_of(const std::string& name, Feature feature, const Layout& layout, const PartEstimate& estimate, UnitId unit);

/// The part cut along each direction with its wear drawn outward (a bore) or inward (a journal) by a stated exaggeration, contour lines
/// of equal wear with their figures between places that were read, and the figure at each place: 328 wide. A place that was not read is
/// an empty ring with a dash, and no line runs over it. Needs a size for each cell of the layout or nothing, else InternalError.
[[nodiscard]] Drawing wear_map_picture(const WearToDraw& wear, Language language);

}  // namespace fettle
