#include "app/enter_sheet.h"

#include <algorithm>

#include "app/reason.h"
#include "catalogue/catalogue.h"
#include "job/limits_of_sheets.h"
#include "limits/sheet_checks.h"
#include "limits/sheet_file.h"

namespace fettle {

Problems problems_of_sheet(const Job& job, const SheetEntered& version) {
  Problems out = sheet_id_problems(version.sheet, {});
  const auto add = [&](const Problems& more) { out.insert(out.end(), more.begin(), more.end()); };
  add(sheet_problems(version.of, version.sheet, catalogue()));
  if (version.of.book.empty()) out.push_back({"record.sheet_no_book", {}, {verbatim("sheet", version.sheet)}});
  const auto there = std::find_if(job.sheets.begin(), job.sheets.end(), [&](const auto& each) { return each.value.sheet == version.sheet; });
  if (there == job.sheets.end()) return out;
  if (sheet_file_text(there->value.of) == sheet_file_text(version.of)) {
    out.push_back({"record.sheet_same", {}, {verbatim("sheet", version.sheet)}});
  } else {
    add(problems_of_reason(version.why));
  }
  return out;
}

Result<std::string> enter_sheet(Store& store, const RecordedJob& recorded, const SheetEntered& version, const Doing& doing) {
  if (Problems problems = problems_of_sheet(recorded.job, version); !problems.empty()) return problems;
  const Result<std::vector<std::string>> made = append(store, recorded, {version}, doing);
  if (!made.ok()) return made.problems();
  return made.value().front();
}

}  // namespace fettle
