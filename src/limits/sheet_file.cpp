#include "limits/sheet_file.h"

#include "base/toml_text.h"
#include "catalogue/table_reader.h"
#include "limits/printed_cell.h"
#include "limits/sheet_checks.h"

namespace fettle {
namespace {

constexpr WordTable<UnitFamily, 2> kOriginals{{{"mm", UnitFamily::metric}, {"in", UnitFamily::inch}}};
constexpr WordTable<Decided, 3> kDecided{{{"as-printed", Decided::as_printed}, {"put-right", Decided::put_right}, {"ask", Decided::ask}}};

class SheetFileReader {
 public:
  SheetFileReader(const std::string& file, const Catalogue& known) : file_(file), known_(known) {}

  Result<LimitSheet> read(std::string_view text) {
    const auto document = read_document(text, file_);
    if (!document.ok()) return document.problems();
    TableReader root(document.value(), problems_);
    if (const DocumentNode* head = root.node("sheet"); head != nullptr) read_head(*head);
    for (const DocumentNode* each : root.tables("row")) read_row(*each);
    for (const DocumentNode* each : root.tables("decision")) read_decision(*each);
    root.finish();
    if (problems_.empty()) problems_ = sheet_problems(out_, file_, known_);
    if (!problems_.empty()) return std::move(problems_);
    return std::move(out_);
  }

 private:
  void read_head(const DocumentNode& node) {
    TableReader table(node, problems_);
    out_.book = table.text("book");
    out_.edition = table.optional_text("edition").value_or("");
    out_.original = table.optional_word("original", kOriginals);
    table.finish();
  }

  void read_row(const DocumentNode& node) {
    TableReader table(node, problems_);
    const auto word = [&](const char* key) { return table.optional_text(key).value_or(""); };
    SheetRow row{};
    row.place = table.place();
    row.what = table.text("what");
    row.kind = word("kind");
    row.definition = word("definition");
    row.page = word("page");
    row.grade = word("grade");
    row.from = word("from");
    row.choose = word("choose");
    row.note = word("note");
    row.step = single(table, "step", row);
    row.fresh = range(table, "new", row);
    row.wear = single(table, "wear", row);
    row.per = single(table, "per", row);
    row.id = word("id");
    table.finish();
    if (row.id.empty()) row.id = ids_.id_for(row);
    out_.rows.push_back(std::move(row));
  }

  PrintedRange range(TableReader& table, const char* key, SheetRow& row) {
    const auto text = table.optional_text(key);
    if (!text) return {};
    const DocumentNode* node = table.node(key);
    auto cell = take(read_printed(*text, {{}, DecimalMark::point}, node == nullptr ? table.place() : node->place), problems_);
    if (!cell) return {};
    if (!cell->marks.empty()) row.note += (row.note.empty() ? "" : " ") + cell->marks;
    return cell->range;
  }
  Printed single(TableReader& table, const char* key, SheetRow& row) {
    const PrintedRange both = range(table, key, row);
    if (!(both.from == both.to)) problems_.push_back({"limits.range_here", row.place, {verbatim("text", table.text(key))}});
    return both.from;
  }

  void read_decision(const DocumentNode& node) {
    TableReader table(node, problems_);
    out_.decisions.push_back({table.text("rule"), table.text("row"), table.text("field"), table.text("printed"), table.word("decided", kDecided), table.optional_text("to").value_or(""), table.text("who"), table.text("when")});
    table.finish();
  }

  const std::string& file_;
  const Catalogue& known_;
  RowIds ids_;
  LimitSheet out_;
  Problems problems_;
};

/// "84.02 mm": the figure as typed where it has its unit, else with it.
std::string typed_text(const TypedQuantity& figure) {
  const std::string unit(unit_definition(figure.quantity.unit).symbol);
  if (figure.quantity.dimension() == Dimension::count) return digits_of(figure) + " : 1";
  const bool fraction = figure.text.find('/') != std::string::npos;
  if (fraction) return figure.text.find_first_of("mi") == std::string::npos ? figure.text + " " + unit : figure.text;
  return digits_of(figure) + " " + unit;
}

std::string side_text(const PrintedRange& range, UnitFamily family) {
  const auto& from = range.from.in(family);
  const auto& to = range.to.in(family);
  if (from && to) return *from == *to ? typed_text(*from) : typed_text(*from) + " to " + typed_text(*to);
  return from ? "over " + typed_text(*from) : to ? "up to " + typed_text(*to) : "";
}

std::string range_text(const PrintedRange& range) {
  const std::string metric = side_text(range, UnitFamily::metric);
  const std::string inch = side_text(range, UnitFamily::inch);
  return metric.empty() ? inch : inch.empty() ? metric : metric + " (" + inch + ")";
}

void text_if(TomlText& out, const char* key, const std::string& value) {
  if (!value.empty()) out.text(key, value);
}

void row_text(TomlText& out, const SheetRow& row) {
  out.table("[[row]]");
  out.text("id", row.id);
  out.text("what", row.what);
  text_if(out, "kind", row.kind);
  text_if(out, "definition", row.definition);
  text_if(out, "page", row.page);
  text_if(out, "step", range_text({row.step, row.step}));
  text_if(out, "grade", row.grade);
  text_if(out, "new", range_text(row.fresh));
  text_if(out, "wear", range_text({row.wear, row.wear}));
  text_if(out, "per", range_text({row.per, row.per}));
  text_if(out, "from", row.from);
  text_if(out, "choose", row.choose);
  text_if(out, "note", row.note);
}

}  // namespace

Result<LimitSheet> read_sheet_file(std::string_view text, const std::string& file, const Catalogue& known) { return SheetFileReader(file, known).read(text); }

std::string sheet_file_text(const LimitSheet& sheet) {
  TomlText out;
  out.table("[sheet]");
  out.text("book", sheet.book);
  text_if(out, "edition", sheet.edition);
  if (sheet.original) out.text("original", *sheet.original == UnitFamily::inch ? "in" : "mm");
  for (const SheetRow& row : sheet.rows) row_text(out, row);
  for (const SheetDecision& each : sheet.decisions) {
    out.table("[[decision]]");
    out.text("rule", each.rule);
    out.text("row", each.row);
    out.text("field", each.field);
    out.text("printed", each.printed);
    for (const auto& [name, value] : kDecided) {
      if (value == each.decided) out.text("decided", name);
    }
    text_if(out, "to", each.to);
    out.text("who", each.who);
    out.text("when", each.when);
  }
  return out.all();
}

}  // namespace fettle
