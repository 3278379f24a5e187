#pragma once

#include <string_view>
#include <vector>

#include "limits/proof_desk.h"

namespace fettle {

/// A row that was typed in another unit than the rest of its sheet: all its figures are too large or too small by one power of ten, or by an inch. Only for the rules.
struct UnitSlip {
  Ratio factor;            ///< the figures times this are what was meant
  std::string_view shown;  ///< "1 / 25.4"
  int decimals;            ///< how many more of them the figures have then
  bool length_only;
};
/// The likelier first: 10, 1000, 100, 25.4 and 0.0254 (thousandths of an inch in millimetres), either way.
[[nodiscard]] const std::vector<UnitSlip>& unit_slips();

/// The figure as it would be.
[[nodiscard]] TypedQuantity in_unit(const TypedQuantity& figure, const UnitSlip& slip);

/// The fields of a row that are printed in this family, a single figure once.
[[nodiscard]] std::vector<SheetField> printed_fields(const SheetRow& row, UnitFamily family);

/// The row with its new figures as they would be, and its wear limit too where only that goes with them.
struct RowInUnit {
  SheetRow row;
  std::vector<SheetField> changed;
};
[[nodiscard]] RowInUnit row_in_unit(const SheetRow& row, UnitFamily family, const UnitSlip& slip);

/// What is said of such a row, once for all its figures. `why`: what it does not go with.
[[nodiscard]] ProofFinding row_unit_finding(std::string_view rule, HowSure sure, const SheetRow& row, UnitFamily family, const RowInUnit& meant, const UnitSlip& slip, Message why);

/// Slips that a single figure's own point would explain as well.
[[nodiscard]] bool is_point_slip_only(const SheetRow& row, UnitFamily family, const UnitSlip& slip);

}  // namespace fettle
