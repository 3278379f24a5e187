#pragma once

#include <map>
#include <string>

#include "catalogue/catalogue.h"
#include "limits/sheet.h"

namespace fettle {

/// Everything that keeps rows from being a sheet, by row: limits.unknown_kind, .unknown_definition_here, .characteristic_other, .per_nought, .row_twice, .row_empty, .from_unreadable,
/// .from_unknown, .from_itself, .from_not_alike, .no_rows.
[[nodiscard]] Problems sheet_problems(const LimitSheet& sheet, const std::string& file, const Catalogue& known);

/// Ids of rows where the person gave none: from name, step and grade; the second of the same gets -2.
class RowIds {
 public:
  [[nodiscard]] std::string id_for(const SheetRow& row);

 private:
  std::map<std::string, int> given_;  ///< by what an id would be: how often it was
};

}  // namespace fettle
