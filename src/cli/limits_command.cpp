#include "cli/limits_command.h"

#include <algorithm>

#include "app/proof_sheets.h"
#include "catalogue/catalogue.h"
#include "cli/exit_code.h"
#include "job/job_text.h"
#include "limits/sheet_limits.h"

namespace fettle {
namespace {

std::vector<std::string> remarks(const SheetLimit& limit, Language language) {
  std::vector<std::string> out;
  if (limit.open) out.push_back(word_for("sheet_limits.open", language));
  if (!limit.unsaid.empty()) out.push_back(word_for("sheet_limits.unsaid", language));
  return out;
}

std::string unused(const UnusedRow& row, Language language) {
  std::string out = "# " + sentence(Message{"sheet_limits.unused", {verbatim("row", row.row), word("why", "sheet_limits.unused." + std::string(row_unused_name(row.why)))}}, language) + "\n";
  for (const Problem& each : row.problems) out += "#   " + sentence(each, language) + "\n";
  return out;
}

}  // namespace

std::string unused_rows_text(const LimitSheet& sheet, Language language) {
  std::string out;
  for (const UnusedRow& row : limits_of(sheet, {}, catalogue()).unused) out += unused(row, language);
  return out;
}

RunResult run_limits(const LimitsAsked& asked, Language language) {
  const std::vector<ProofedSheet> sheets = proof_sheets({asked.sheet});
  RunResult out{kFine, {}, {}};
  for (const ProofedSheet& each : sheets) {
    for (const Problem& problem : each.problems) {
      out.error += sentence(problem, language) + "\n";
      out.exit_code = kInput;
    }
    if (!each.problems.empty()) continue;
    const SheetLimits all = limits_of(each.sheet, each.findings, catalogue());
    for (const SheetLimit& limit : all.limits) out.out += limit_text(limit.limit, remarks(limit, language)) + "\n";
    for (const UnusedRow& row : all.unused) out.out += unused(row, language);
    const bool open = std::any_of(all.limits.begin(), all.limits.end(), [](const SheetLimit& limit) { return limit.open; });
    if (open && out.exit_code == kFine) out.exit_code = kNotAllWithin;
  }
  return out;
}

}  // namespace fettle
