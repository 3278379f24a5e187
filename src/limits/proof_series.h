#pragma once

#include <optional>

#include "limits/proof_desk.h"

namespace fettle {

/// Whether a figure of a row lies by a multiple of the step (1, -1, ½, -½, 0) from the same figure of another row, as far as rounding goes; nothing
/// where one is not printed, is no length, or both have the same step. Only for the rules.
[[nodiscard]] std::optional<bool> steps_with(const SheetRow& row, const SheetRow& other, SheetField field, UnitFamily family);

}  // namespace fettle
