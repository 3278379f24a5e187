#include "wire/sheet_draft_reader.h"

#include "wire/sheet_draft_fields.h"

namespace fettle {
namespace json {
namespace {

void read_cells(const Read& node, const Spot& spot, SheetDraftRow& row) {
  EventReader cells(node, spot);
  for (std::size_t i = 0; i < kSheetColumns; ++i) {
    const auto column = static_cast<SheetColumn>(i);
    std::optional<std::string> text;
    cells(column_name(column).data(), text);  // names are literals
    if (text) row.cells.emplace_back(column, *std::move(text));
  }
  cells.finish();
}

template <class E, std::size_t N>
void read_optional_word(EventReader& reader, const char* key, const Spot& spot, const WordTable<E, N>& table, std::optional<E>& out) {
  std::optional<std::string> text;
  reader(key, text);
  if (!text) return;
  out = value_of(table, *text);
  if (!out) spot.inside(key).add("wire.unknown_word", {verbatim("word", *text), verbatim("known", all_words(table))});
}

void read_draft_row(const Read& node, const Spot& spot, SheetDraftRow& row) {
  EventReader reader(node, spot);
  reader("id", row.id);
  if (const Read* cells = reader.required("cells")) read_cells(*cells, spot.inside("cells"), row);
  reader.finish();
}

void read_draft_decision(const Read& node, const Spot& spot, SheetDecision& decision) {
  EventReader reader(node, spot);
  std::optional<std::string> to;
  reader("rule", decision.rule);
  reader("row", decision.row);
  reader("field", decision.field);
  reader("printed", decision.printed);
  if (const Read* decided = reader.required("decided")) read_word(*decided, spot.inside("decided"), kDecidedWords, decision.decided);
  reader("to", to);
  decision.to = to.value_or("");
  reader("who", decision.who);
  reader("when", decision.when);
  reader.finish();
}

template <class T, class Each>
void read_list(EventReader& reader, const char* key, const Spot& spot, std::vector<T>& out, const Each& each) {
  const Read* list = reader.required(key);
  if (list == nullptr) return;
  const Spot inside = spot.inside(key);
  if (!list->is_array()) return inside.wrong_kind("wire.a_list");
  for (std::size_t i = 0; i < list->size() && !spot.full(); ++i) each((*list)[i], inside.item(i), out.emplace_back());
}

}  // namespace

void read_value(const Read& node, const Spot& spot, SheetDraft& draft) {
  EventReader reader(node, spot);
  reader("book", draft.book);
  reader("edition", draft.edition);
  reader("page", draft.page);
  read_optional_word(reader, "original", spot, kOriginalWords, draft.original);
  read_optional_word(reader, "unit", spot, kPageUnitWords, draft.unit);
  read_list(reader, "rows", spot, draft.rows, read_draft_row);
  read_list(reader, "decisions", spot, draft.decisions, read_draft_decision);
  reader.finish();
}

}  // namespace json

namespace {

template <class T, class Fill>
Result<T> read_asked(std::string_view body, const Fill& fill) {
  Problems problems;
  const Place place;
  const auto node = json::read_line(body, place, problems);
  if (!node) return problems;
  T out{};
  fill(*node, json::Spot{"", place, problems}, out);
  if (!problems.empty()) return problems;
  return out;
}

}  // namespace

Result<SheetDraft> read_draft_body(std::string_view body) {
  return read_asked<SheetDraft>(body, [](const json::Read& node, const json::Spot& spot, SheetDraft& out) { json::read_value(node, spot, out); });
}

Result<SheetEffectAsked> read_effect_body(std::string_view body) {
  return read_asked<SheetEffectAsked>(body, [](const json::Read& node, const json::Spot& spot, SheetEffectAsked& out) {
    json::EventReader reader(node, spot);
    reader("sheet", out.sheet);
    reader("draft", out.draft);
    reader.finish();
  });
}

}  // namespace fettle
