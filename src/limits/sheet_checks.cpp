#include "limits/sheet_checks.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "entry/characters.h"
#include "limits/sheet_cells.h"
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

int power_of(const SheetRow& row) {
  for (const Printed* each : {&row.fresh.from, &row.fresh.to, &row.wear}) {
    if (const TypedQuantity* figure = each->preferring(UnitFamily::metric)) return length_power(figure->quantity.dimension());
  }
  return 0;
}

/// Lengths are added to lengths, nothing is divided by a figure that may be nought, and what comes out is what the row is.
bool can_be_reckoned(const SheetExpression& expression, const SheetRow& row, const std::map<std::string, const SheetRow*>& rows) {
  const SheetExpression::Span span = expression.value([&](const std::string& name) -> SheetExpression::Span {
    const auto found = rows.find(name);
    if (found == rows.end()) return {1.0, 1.0, power_of(row)};
    const auto value = [](const Printed& figure) { return figure.preferring(UnitFamily::metric)->quantity.in_base().to_double(); };
    const PrintedRange& range = found->second->fresh;
    const Printed& low = range.from.empty() ? range.to : range.from;
    const Printed& high = range.to.empty() ? range.from : range.to;
    if (low.empty()) return {1.0, 1.0, power_of(*found->second)};
    return {value(low), value(high), power_of(*found->second)};
  });
  return !span.mixed && span.power == power_of(row) && std::isfinite(span.low) && std::isfinite(span.high);
}

/// What rows follow from, by id.
using Follows = std::map<std::string, std::vector<std::string>>;

void what_it_follows_from(const std::map<std::string, const SheetRow*>& rows, const SheetRow& row, Follows& follows, Problems& problems) {
  if (row.from.empty()) return;
  const auto expression = take(read_sheet_expression(row.from, row.place), problems);
  if (!expression) return;
  for (const std::string& name : expression->names()) {
    if (!rows.contains(name)) problems.push_back({"limits.from_unknown", row.place, {verbatim("name", name), verbatim("row", row.id)}});
  }
  follows[row.id] = expression->names();
  if (!can_be_reckoned(*expression, row, rows)) problems.push_back({"limits.from_not_alike", row.place, {verbatim("text", row.from), verbatim("row", row.id)}});
}

bool leads_back(const Follows& follows, const std::string& to, const std::string& from, std::set<std::string>& seen) {
  const auto found = follows.find(from);
  if (found == follows.end()) return false;
  return std::any_of(found->second.begin(), found->second.end(), [&](const std::string& each) { return each == to || (seen.insert(each).second && leads_back(follows, to, each, seen)); });
}

}  // namespace

Problems sheet_problems(const LimitSheet& sheet, const std::string& file, const Catalogue& known) {
  Problems out;
  std::map<std::string, const SheetRow*> all;
  for (const SheetRow& row : sheet.rows) all.emplace(row.id, &row);
  std::set<std::string> ids;
  Follows follows;
  const auto add = [&](const char* code, const SheetRow& row, const char* name, const std::string& value) { out.push_back({code, row.place, {verbatim(name, value)}}); };
  for (const SheetRow& row : sheet.rows) {
    if (!row.kind.empty() && known.kind(row.kind) == nullptr) add("limits.unknown_kind", row, "kind", row.kind);
    if (!row.definition.empty() && known.definition(row.definition) == nullptr) add("limits.unknown_definition_here", row, "definition", row.definition);
    if (const Definition* definition = known.definition(row.definition); definition != nullptr && row.characteristic && definition->family != *row.characteristic) {
      out.push_back({"limits.characteristic_other", row.place, {verbatim("definition", row.definition), verbatim("text", std::string(family_name(*row.characteristic))), verbatim("row", row.id)}});
    }
    const TypedQuantity* per = row.per.preferring(UnitFamily::metric);
    if (per != nullptr && per->quantity.in_base().sign() <= 0) add("limits.per_nought", row, "row", row.id);
    if (!ids.insert(row.id).second) add("limits.row_twice", row, "id", row.id);
    if (!says_something(row)) add("limits.row_empty", row, "what", row.what);
    what_it_follows_from(all, row, follows, out);
  }
  for (const SheetRow& row : sheet.rows) {
    std::set<std::string> seen;
    if (leads_back(follows, row.id, row.id, seen)) add("limits.from_itself", row, "row", row.id);
  }
  if (sheet.rows.empty()) out.push_back({"limits.no_rows", {file, {}, {}}, {}});
  return out;
}

std::string RowIds::id_for(const SheetRow& row) {
  std::string whole = row.what;
  for (const std::optional<TypedQuantity>& each : {row.step.metric, row.step.inch}) {
    if (each) whole += " " + digits_of(*each);
  }
  const std::string plain = id_from(whole + " " + row.grade);
  const int times = ++given_[plain];
  return times == 1 ? plain : plain + "-" + std::to_string(times);
}

}  // namespace fettle
