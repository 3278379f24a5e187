#pragma once

#include <vector>

#include "form/shape_group.h"

namespace fettle {

/// What the shape model says of a group beside its figures: what all readings share and for whose doing it is taken, and why; whether the
/// group stands at its standard size; each reading that does not fit. `layout` of its parts; lengths of places in `unit`.
[[nodiscard]] std::vector<Message> shape_said(const ShapeGroup& group, const Layout& layout, UnitId unit);

}  // namespace fettle
