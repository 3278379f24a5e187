#pragma once

#include <string>
#include <vector>

#include "limits/proof.h"

namespace fettle {

/// A limit that a row of a sheet says.
struct SheetLimit {
  std::string row;
  Limit limit;
  bool open;  ///< it rests on a figure that is asked about and was not decided
  /// The limit as the book prints it, without a definition: the id that all limits share which say the same figure under one definition each. Empty:
  /// the book says which, or there is only one.
  std::string unsaid;
};

/// Why a row gives no limit.
///   no_kind            it names no kind of part
///   no_characteristic  it does not say what of the part it is
///   no_definition      the kind has several figures, and it names none
///   step               it is of an oversize or undersize: the standard row moved by the step says the same
///   grade              other grades of the same thing reach further
///   bands              it says what to take for a size
///   assembly           it is a torque, a quantity, or a part that is fitted once: for whoever puts the engine together
///   refused            see `problems`
enum class RowUnused { no_kind, no_characteristic, no_definition, step, grade, bands, assembly, refused };
[[nodiscard]] std::string_view row_unused_name(RowUnused why);

struct UnusedRow {
  std::string row;
  RowUnused why;
  Problems problems;  ///< of refused: those of limit_problems, and limits.fit_not_of_this, .wear_side_unknown
};

struct SheetLimits {
  std::vector<SheetLimit> limits;
  std::vector<UnusedRow> unused;  ///< nothing is dropped silently
};

/// What parts are judged by, from a sheet as decided. Each bound is the figure in the unit in which the book was made, where that is said; else the
/// one that is printed more finely. The other unit is never converted back. Where no figure says what is new, the fit does. Of rows that differ by their grade
/// those count that reach furthest: a part is new if it is new in some grade. Rows of a series are for parts at that step: the standard row moved by
/// the step says the same (the proof holds them to it). Of a size, the end to which nothing wears is judged by size-3, the other by size-1. Where the book
/// does not say a definition, a size is the one at the stations, and of anything else there is one limit under every usual definition. New figures are
/// LimitRole::fresh, the wear limit is LimitRole::service.
[[nodiscard]] SheetLimits limits_of(const LimitSheet& sheet, const std::vector<ProofFinding>& findings, const Catalogue& known);

}  // namespace fettle
