#include "limits/sheet_file.h"

#include "base/toml_text.h"
#include "catalogue/table_reader.h"
#include "limits/sheet_cells.h"
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
    SheetRow row{};
    row.place = table.place();
    row.what = table.text("what");
    for (std::size_t i = 0; i < kSheetColumns; ++i) {
      const auto column = static_cast<SheetColumn>(i);
      if (column != SheetColumn::what) read_cell(table, column, row);
    }
    table.finish();
    if (row.id.empty()) row.id = ids_.id_for(row);
    out_.rows.push_back(std::move(row));
  }

  void read_cell(TableReader& table, SheetColumn column, SheetRow& row) {
    const std::string_view key = column_name(column);
    const DocumentNode* node = table.node(key);
    if (node == nullptr) return;
    if (const bool* truth = std::get_if<bool>(&node->value); truth != nullptr && column == SheetColumn::once) {
      row.once = *truth;
    } else if (const auto text = table.optional_text(key)) {
      read_sheet_cell(row, column, *text, {{}, DecimalMark::point}, node->place, problems_);
    }
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

void text_if(TomlText& out, const char* key, const std::string& value) {
  if (!value.empty()) out.text(key, value);
}

void row_text(TomlText& out, const SheetRow& row) {
  out.table("[[row]]");
  for (const auto& [column, text] : sheet_cells(row)) {
    if (column == SheetColumn::once) {
      out.truth(column_name(column), true);
    } else {
      out.text(column_name(column), text);
    }
  }
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
