#pragma once

#include <optional>
#include <string>
#include <vector>

#include "catalogue/layout.h"
#include "drawing/drawing.h"
#include "text/sentence.h"

namespace fettle {

/// A face read along lines under a straightedge. mm.
struct FaceToDraw {
  std::string name;  ///< "Head"
  Layout layout;     ///< stations are lines, directions are places along each
  std::vector<std::optional<double>> gaps;  ///< by cell: the feeler's gap; nothing: not read
  UnitId unit;
};

/// The face from above with each line where it lies and the feeler's figure at each place, the greatest marked, 328 wide. Lines are
/// placed by their group (long, cross, diagonal). Needs a gap or nothing for each cell, else InternalError.
[[nodiscard]] Drawing face_map_picture(const FaceToDraw& face, Language language);

}  // namespace fettle
