#include "limits/sheet_checks.h"

#include <algorithm>
#include <set>

#include "entry/characters.h"
#include "limits/sheet_expression.h"

namespace fettle {
namespace {

/// "Cylinder bore, +0.25" -> "cylinder-bore-0-25".
std::string id_from(std::string_view text) {
  std::string out;
  for (const char32_t point : code_points(text)) {
    const bool letter = (point >= U'a' && point <= U'z') || (point >= U'A' && point <= U'Z') || is_digit(point) || point > 0x7F;
    if (letter) {
      out += utf8({point}, 0, 1);
    } else if (!out.empty() && out.back() != '-') {
      out += '-';
    }
  }
  while (!out.empty() && out.back() == '-') out.pop_back();
  return out.empty() ? "row" : ascii_lower(out);
}

void what_it_follows_from(const LimitSheet& sheet, const SheetRow& row, Problems& problems) {
  if (row.from.empty()) return;
  const auto expression = take(read_sheet_expression(row.from, row.place), problems);
  if (!expression) return;
  for (const std::string& name : expression->names()) {
    if (sheet.row(name) == nullptr) problems.push_back({"limits.from_unknown", row.place, {verbatim("name", name), verbatim("row", row.id)}});
  }
}

}  // namespace

Problems sheet_problems(const LimitSheet& sheet, const std::string& file, const Catalogue& known) {
  Problems out;
  std::set<std::string> ids;
  const auto add = [&](const char* code, const SheetRow& row, const char* name, const std::string& value) { out.push_back({code, row.place, {verbatim(name, value)}}); };
  for (const SheetRow& row : sheet.rows) {
    if (!row.kind.empty() && known.kind(row.kind) == nullptr) add("limits.unknown_kind", row, "kind", row.kind);
    if (!row.definition.empty() && known.definition(row.definition) == nullptr) add("limits.unknown_definition_here", row, "definition", row.definition);
    if (!ids.insert(row.id).second) add("limits.row_twice", row, "id", row.id);
    if (row.fresh.empty() && row.wear.empty()) add("limits.row_empty", row, "what", row.what);
    what_it_follows_from(sheet, row, out);
  }
  if (sheet.rows.empty()) out.push_back({"limits.no_rows", {file, {}, {}}, {}});
  return out;
}

std::string id_for(const SheetRow& row, const std::vector<SheetRow>& before) {
  std::string whole = row.what;
  for (const std::optional<TypedQuantity>& each : {row.step.metric, row.step.inch}) {
    if (each) whole += " " + digits_of(*each);
  }
  const std::string plain = id_from(whole + " " + row.grade);
  std::string id = plain;
  const auto taken = [&] { return std::any_of(before.begin(), before.end(), [&](const SheetRow& each) { return each.id == id; }); };
  for (int again = 2; taken(); ++again) id = plain + "-" + std::to_string(again);
  return id;
}

}  // namespace fettle
