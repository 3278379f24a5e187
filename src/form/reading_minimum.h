#pragma once

#include "form/expand.h"

namespace fettle {

/// What has to be said before a definition can be expanded on a part: wrong feature, what diameters cannot give, named places
/// that the layout lacks, sizes and depths that were not given.
[[nodiscard]] Problems unmet_needs(const Definition& definition, const PartGrid& grid);

/// The cells a definition asks for, ascending.
[[nodiscard]] std::vector<std::size_t> asked_cells(const Definition& definition, const PartGrid& grid);

/// The cells that may enter: read, asked for, and if the definition wants whole directions, only of directions that were read
/// at every station it asks for. One entry for each cell of the layout.
[[nodiscard]] std::vector<bool> entering_cells(const Definition& definition, const PartGrid& grid);

/// What a definition that nothing came of would have needed read: form.needs_places.
[[nodiscard]] Problem places_lacking(const Definition& definition, const PartGrid& grid, const std::vector<bool>& entering);

/// Whether the entering cells are the least that may carry a verdict (a figure over unread stations would be a forecast).
[[nodiscard]] Problems minimum_problems(const Definition& definition, const PartGrid& grid, const std::vector<bool>& entering);

}  // namespace fettle
