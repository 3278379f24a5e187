#pragma once

#include <string>
#include <string_view>

#include "base/result.h"
#include "catalogue/catalogue.h"
#include "limits/sheet.h"

namespace fettle {

/// The bytes of a table as UTF-8: byte-order marks of UTF-8 and UTF-16 are obeyed; what is no UTF-8 is taken for Latin-1 with the signs that
/// office programs put into its empty places (Windows-1252). Nothing is lost: every byte has a sign.
[[nodiscard]] std::string table_as_utf8(std::string_view bytes);

/// Reads a table of limits as it is pasted from a spreadsheet. Headings, in English or German, in any order: what, kind, definition, page, step,
/// grade, new, new min, new max, wear, per, from, choose, note, id; with the unit in brackets: "new (mm)", "wear (in)", "new (mm/in)". Lines "# book:",
/// "# edition:", "# page:", "# original:" before the headings say what holds for the whole table. A row without a name that has a step or a grade
/// goes on with the name above it. Problems: those of read_table and read_printed, and limits.no_column, .column_unknown, .column_unit, .row_unnamed,
/// .row_empty, .row_twice, .unknown_kind, .unknown_definition_here, .range_twice, .original_unknown.
[[nodiscard]] Result<LimitSheet> read_sheet_table(std::string_view bytes, const std::string& file, const Catalogue& known);

}  // namespace fettle
