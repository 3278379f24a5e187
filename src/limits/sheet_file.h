#pragma once

#include <string>
#include <string_view>

#include "base/result.h"
#include "catalogue/catalogue.h"
#include "limits/sheet.h"

namespace fettle {

/// Reads a limit sheet that a person can write (TOML): [sheet] with book, edition, original; a [[row]] for each line of the book's table with id,
/// what, kind, definition, page, step, grade, new, wear, per, from, choose, note; a [[decision]] for what was said to the proof. Figures are texts
/// with their units, as read_printed takes them: new = "84.000-84.020 mm (3.3071-3.3079 in)". Problems: those of read_document, the table reader,
/// read_printed and sheet_problems, and limits.range_here.
[[nodiscard]] Result<LimitSheet> read_sheet_file(std::string_view text, const std::string& file, const Catalogue& known);

/// The same sheet as text that read_sheet_file reads back.
[[nodiscard]] std::string sheet_file_text(const LimitSheet& sheet);

}  // namespace fettle
