#pragma once

#include <string>
#include <vector>

#include "limits/proof.h"

namespace fettle {

/// A limit that a row of a sheet says.
struct SheetLimit {
  Limit limit;
  bool open;    ///< it rests on a figure that is asked about and was not decided
  bool unsaid;  ///< the book does not say under which definition; every one is to be looked at
};

/// Why a row gives no limit.
enum class RowUnused { no_kind, step, bands, no_definition, refused };
[[nodiscard]] std::string_view row_unused_name(RowUnused why);

struct UnusedRow {
  std::string row;
  RowUnused why;
  Problems problems;  ///< of refused: those of limit_problems
};

struct SheetLimits {
  std::vector<SheetLimit> limits;
  std::vector<UnusedRow> unused;  ///< nothing is dropped silently
};

/// What parts are judged by, from a sheet as decided. Each bound is the figure in the unit in which the book was made, where that is said; else the
/// one that is printed more finely. The other unit is never converted back. Rows of a series are for parts at that step: the standard row moved by
/// the step says the same (the proof holds them to it). Of a size, the end to which nothing wears is judged by size-3, the other by size-1. New figures are LimitRole::fresh, the wear limit is LimitRole::service.
[[nodiscard]] SheetLimits limits_of(const LimitSheet& sheet, const std::vector<ProofFinding>& findings, const Catalogue& known);

}  // namespace fettle
