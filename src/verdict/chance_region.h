#pragma once

#include "form/expansion.h"
#include "form/shape_rows.h"
#include "limits/limit.h"
#include "numeric/mixture_chance.h"

namespace fettle {

/// The places (µm of the shape model) where a characteristic keeps its bound (mm or ratio). Every characteristic is a greatest or a least
/// of linear forms, or an amplitude: "at most" on a greatest is convex, and so is "at least" on a least; the other two are what lies
/// outside of a convex region.
[[nodiscard]] Region region_of(const Expansion& expansion, double bound, LimitSide side, const ShapeOrigin& origin);

/// One form as a sum over µm, without its constant, in mm or ratio.
[[nodiscard]] CellSum sum_of(const LinearForm& form, ResultDimension dimension, const ShapeOrigin& origin);

}  // namespace fettle
