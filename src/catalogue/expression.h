#pragma once

#include <string>
#include <vector>

#include "base/document.h"
#include "catalogue/layout.h"

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
};

/// What a reduction closes.
enum class Over { heights, directions, all };

struct Expression {
  Operation operation;
  Over over;                       ///< of a reduction; otherwise `all` and without meaning
  std::vector<StationRole> roles;  ///< of `at`; empty: every open station
  std::vector<Axis> axes;          ///< of `at`; empty: every open direction
  Ratio number;                    ///< of `factor`; otherwise 0
  std::vector<Expression> parts;
  std::string member = {};         ///< of `of`; otherwise empty
  bool operator==(const Expression&) const = default;
};

enum class ResultDimension { length, ratio };

/// Every expression but an amplitude is the greatest or the least of finitely many linear forms in the sizes: the probability
/// code rests on it, so what is neither is refused when the catalogue is read.
enum class Sense { linear, greatest, least, amplitude };

/// What can be said of an expression without any reading.
struct ExpressionFacts {
  Sense sense;
  ResultDimension dimension;
  bool uses_standard;
  bool uses_nominal;
  bool uses_depths;
};

/// Reads ["max", "heights", ["range", "directions", ["size"]]]. Problems: catalogue.expression_form (not an array beginning
/// with an operation, wrong number of parts), catalogue.unknown_word, catalogue.reserved_operation.
[[nodiscard]] Result<Expression> read_expression(const DocumentNode& node);

/// Problems: catalogue.open_size (several places left where one is needed), catalogue.nothing_open (closed twice),
/// catalogue.two_sided (neither a greatest nor a least), catalogue.mixed_dimensions.
[[nodiscard]] Result<ExpressionFacts> check_expression(const Expression& expression, const Place& place);

}  // namespace fettle
