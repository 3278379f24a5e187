#pragma once

#include "base/result.h"
#include "catalogue/definition.h"
#include "form/expansion.h"

namespace fettle {

/// Sizes that a book or a person gives. Not known: the definitions that need them answer "needs ...".
struct GivenSizes {
  std::optional<Length> standard;
  std::optional<Length> nominal;
  bool operator==(const GivenSizes&) const = default;
};

/// What is known of one part before any size is looked at.
struct PartGrid {
  Feature feature;
  Layout layout;
  std::vector<bool> read;  ///< by cell: at least one unflagged reading
  GivenSizes given;
  bool operator==(const PartGrid&) const = default;
};

/// Gives the forms of `definition` over the cells that were read. Only counted stations and directions enter. Needs a sound
/// layout (layout_problems) and one entry of `read` for each cell.
/// Problems, all at once: form.not_applicable; form.needs_more (diameters cannot give it); form.needs_role, form.needs_axis (the
/// layout lacks a named place); form.needs_standard, form.needs_nominal, form.needs_depths; and if nothing of these, what the
/// reading lacks: form.needs_directions, form.needs_heights, form.needs_first, form.needs_places (of a clearance); form.needs_member (the part is
/// no such assembly); form.too_many_forms; numeric.two_lobe_undetermined (an
/// ovality over directions that nearly coincide). Their place is empty.
[[nodiscard]] Result<Expansion> expand(const Definition& definition, const PartGrid& grid);

}  // namespace fettle
