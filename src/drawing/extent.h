#pragma once

#include <optional>

#include "drawing/drawing.h"

namespace fettle {

/// What a mark covers, its stroke's width not counted.
struct Extent {
  double left;
  double top;
  double right;
  double bottom;
};

/// Of texts by the guessed width, which is on the wide side. Nothing for the beginning and the end of a group.
[[nodiscard]] std::optional<Extent> extent_of(const DrawnMark& mark);

/// Whether two extents have no point in common but their edges.
[[nodiscard]] bool apart(const Extent& a, const Extent& b);

}  // namespace fettle
