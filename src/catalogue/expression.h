#pragma once

#include <string>
#include <vector>

#include "base/document.h"
#include "catalogue/layout.h"
#include "units/unit.h"

namespace fettle {

/// The closed set that definitions are made of. An expression is read from the outside in: it is evaluated over the stations and
/// directions that are still *open*. Reductions (max, min, mean, range) close heights, directions or both, one by one; `at`
/// narrows them by name; `size` needs exactly one place left.
enum class Operation {
  size,        ///< the size at the one place that is left
  standard,    ///< the standard size
  nominal,     ///< the nominal size
  at,          ///< only the named stations and axes
  of,          ///< the places of one member of an assembly, all of them open
  max,
  min,
  mean,
  range,       ///< largest minus smallest
  difference,  ///< first part minus second
  factor,
  slope,       ///< per length: divided by the way between the first and the last open station
  ratio,       ///< first part divided by the second, a given size
  amplitude,   ///< of the two-lobe fit over the open directions of one station
  apart,       ///< how far two linear parts lie from each other, whichever is the larger
  cosine,      ///< of a part that is an angle
  arccosine,   ///< the angle, 0° to 180°, whose cosine the part is
  place,       ///< what was read at a station of the part's own, by its id
  number,      ///< a pure number
  length,      ///< a length that the definition itself states
  sum,
  product,
  quotient,
  vector_difference,  ///< of two neighbouring stations that were each read as a length with its angle: what is left between them
  neighbour_rule,     ///< the handbook's rule of thumb for the same: sum if opposite, difference if alike, three quarters of the sum between
  per_span,           ///< the size at the one place that is left, over the length of its line
  tilt_along,         ///< slope along the stations of the plane of least squares through all open places
  tilt_across,        ///< its slope across, over the directions
  twist,              ///< how much more the first station rises across than the last
  off_plane,          ///< how far the one place that is left stands off the plane of least squares through all open ones
};

/// What a reduction closes.
enum class Over { heights, directions, all };

struct Expression {
  Operation operation;
  Over over;                       ///< of a reduction; otherwise `all` and without meaning
  std::vector<StationRole> roles;  ///< of `at`; empty: every open station
  std::vector<Axis> axes;          ///< of `at`; empty: every open direction
  Ratio number;                    ///< of `factor` and `number`, of `length` in counts of 0.1 nm; otherwise 0
  std::vector<Expression> parts;
  std::vector<std::string> groups = {};  ///< of `at`: sorts of lines, written "=long"
  std::string member = {};         ///< of `of` the member, of `place` the station; otherwise empty
  bool operator==(const Expression&) const = default;
};

/// ratio: a length for each length, so its limit is typed with "per"; likewise force_per_length. number: a pure number.
enum class ResultDimension { length, ratio, number, force, force_per_length, volume, angle, mass, pressure };

/// What the bound of such a figure is typed in; of one "per length" the quantity above the line.
[[nodiscard]] Dimension typed_dimension(ResultDimension dimension);
[[nodiscard]] bool is_per_length(ResultDimension dimension);

/// Every expression but an amplitude and a formula is the greatest or the least of finitely many linear forms in the sizes: the probability
/// code rests on it, so what is neither is refused when the catalogue is read.
/// Products, quotients, cosines and vectors are smooth formulas (the greatest or the least of several): those are linearised where they are judged.
enum class Sense { linear, greatest, least, amplitude, formula, least_formula };

[[nodiscard]] constexpr bool is_formula(Sense sense) { return sense == Sense::formula || sense == Sense::least_formula; }

/// What can be said of an expression without any reading.
struct ExpressionFacts {
  Sense sense;
  ResultDimension dimension;  ///< of lengths; what a formula or a named place gives is known with the layout only
  bool uses_standard;
  bool uses_nominal;
  bool uses_depths;
  bool any_dimension = false;  ///< a named place or a formula is in it
};

/// Reads ["max", "heights", ["range", "directions", ["size"]]]. Problems: catalogue.expression_form (not an array beginning
/// with an operation, wrong number of parts), catalogue.unknown_word.
[[nodiscard]] Result<Expression> read_expression(const DocumentNode& node);

/// Problems: catalogue.open_size (several places left where one is needed), catalogue.nothing_open (closed twice),
/// catalogue.two_sided (neither a greatest nor a least), catalogue.mixed_dimensions.
[[nodiscard]] Result<ExpressionFacts> check_expression(const Expression& expression, const Place& place);

}  // namespace fettle
