#pragma once

#include "catalogue/catalogue.h"
#include "limits/sheet.h"

namespace fettle {

/// Everything that keeps rows from being a sheet, by row: limits.unknown_kind, .unknown_definition_here, .row_twice, .row_empty, .from_unreadable,
/// .from_unknown, .no_rows.
[[nodiscard]] Problems sheet_problems(const LimitSheet& sheet, const std::string& file, const Catalogue& known);

/// A row's id where the person gave none: from its name, step and grade, as no row before it has.
[[nodiscard]] std::string id_for(const SheetRow& row, const std::vector<SheetRow>& before);

}  // namespace fettle
