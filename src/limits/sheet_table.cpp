#include "limits/sheet_table.h"

#include <algorithm>
#include <array>

#include "base/document.h"
#include "entry/characters.h"
#include "entry/table.h"
#include "limits/sheet_cells.h"
#include "limits/sheet_checks.h"

namespace fettle {
namespace {

using Column = SheetColumn;

struct Heading {
  std::string_view word;
  Column column;
};
constexpr std::array<Heading, 52> kHeadings{{
    {"id", Column::id}, {"what", Column::what}, {"part", Column::what}, {"was", Column::what}, {"teil", Column::what},
    {"kind", Column::kind}, {"art", Column::kind}, {"definition", Column::definition}, {"page", Column::page}, {"seite", Column::page},
    {"step", Column::step}, {"stufe", Column::step}, {"grade", Column::grade}, {"class", Column::grade}, {"klasse", Column::grade},
    {"new", Column::fresh}, {"neu", Column::fresh}, {"new min", Column::fresh_min}, {"neu min", Column::fresh_min}, {"new from", Column::fresh_min},
    {"neu von", Column::fresh_min}, {"new max", Column::fresh_max}, {"neu max", Column::fresh_max}, {"new to", Column::fresh_max}, {"neu bis", Column::fresh_max},
    {"wear", Column::wear}, {"wear limit", Column::wear}, {"verschleiß", Column::wear}, {"per", Column::per}, {"je", Column::per},
    {"characteristic", Column::characteristic}, {"merkmal", Column::characteristic}, {"standard", Column::standard}, {"nominal", Column::standard}, {"nennmaß", Column::standard},
    {"fit", Column::fit}, {"passung", Column::fit}, {"torque", Column::stages}, {"stages", Column::stages}, {"drehmoment", Column::stages}, {"anzug", Column::stages},
    {"sequence", Column::sequence}, {"reihenfolge", Column::sequence}, {"quantity", Column::quantity}, {"menge", Column::quantity}, {"once", Column::once},
    {"use once", Column::once}, {"einmal", Column::once}, {"from", Column::from}, {"choose", Column::choose}, {"note", Column::note}, {"bemerkung", Column::note},
}};

std::string blanks_as_one(std::string text) {
  std::string out;
  for (const char each : text) {
    if (each == ' ' && (out.empty() || out.back() == ' ')) continue;
    out += each;
  }
  while (!out.empty() && out.back() == ' ') out.pop_back();
  return out;
}

std::vector<std::string> split_at(std::string_view text, char separator) {
  std::vector<std::string> out{""};
  for (const char each : text) {
    if (each == separator) {
      out.emplace_back();
    } else {
      out.back() += each;
    }
  }
  return out;
}

struct KnownColumn {
  Column column;
  std::vector<UnitId> units;
};

class TableOfLimits {
 public:
  TableOfLimits(const std::string& file, const Catalogue& known) : file_(file), known_(known) {}

  Result<LimitSheet> read(std::string_view bytes) {
    const std::string text = table_as_utf8(bytes);
    head(text);
    table_ = read_table(text, file_, problems_);
    read_headings();
    if (!problems_.empty()) return std::move(problems_);
    mark_ = decimal_mark();
    for (const Row& row : table_.rows) read_row(row);
    if (problems_.empty()) problems_ = sheet_problems(sheet_, file_, known_);
    if (!problems_.empty()) {
      sort_by_place(problems_);
      return std::move(problems_);
    }
    return std::move(sheet_);
  }

 private:
  void add(const char* code, const Place& place, std::vector<Argument> arguments = {}) { problems_.push_back({code, place, std::move(arguments)}); }

  void head(const std::string& text) {
    int line = 0;
    for (const std::string& each : split_at(text, '\n')) {
      ++line;
      if (each.empty() || each.front() != '#') return;
      const auto colon = each.find(':');
      if (colon == std::string::npos) continue;
      const std::string key = ascii_lower(blanks_as_one(each.substr(1, colon - 1)));
      std::string value = blanks_as_one(each.substr(colon + 1));
      value.erase(std::remove(value.begin(), value.end(), '\r'), value.end());
      while (!value.empty() && (value.back() == ';' || value.back() == ',' || value.back() == '\t')) value.pop_back();
      if (key == "book" || key == "buch") sheet_.book = value;
      if (key == "edition" || key == "ausgabe") sheet_.edition = value;
      if (key == "page" || key == "seite") page_ = value;
      if (key == "original") original(value, line);
    }
  }
  void original(const std::string& value, int line) {
    const Unit* unit = find_unit(value);
    if (unit == nullptr || unit->dimension != Dimension::length) return add("limits.original_unknown", {file_, line, {}}, {verbatim("text", value)});
    sheet_.original = family_of(unit->id);
  }

  void read_headings() {
    for (const std::string& each : table_.header) columns_.push_back(heading(each));
    if (!problems_.empty()) return;
    const auto has = [&](Column column) { return std::any_of(columns_.begin(), columns_.end(), [&](const auto& each) { return each && each->column == column; }); };
    if (!has(Column::what)) add("limits.no_column", {file_, {}, {}}, {verbatim("column", "what")});
    constexpr std::array kSaying{Column::fresh, Column::fresh_min, Column::fresh_max, Column::wear, Column::fit, Column::stages, Column::sequence, Column::quantity, Column::once};
    if (std::none_of(kSaying.begin(), kSaying.end(), has)) add("limits.no_column", {file_, {}, {}}, {verbatim("column", "new")});
  }

  std::optional<KnownColumn> heading(const std::string& text) {
    const Place place{file_, {}, {}};
    const auto open = text.find('(');
    const std::string word = ascii_lower(blanks_as_one(text.substr(0, open)));
    const auto found = std::find_if(kHeadings.begin(), kHeadings.end(), [&](const Heading& each) { return each.word == word; });
    if (found == kHeadings.end()) {
      add("limits.column_unknown", place, {verbatim("column", text)});
      return std::nullopt;
    }
    KnownColumn out{found->column, {}};
    if (open == std::string::npos) return out;
    const std::string inside = text.substr(open + 1, text.rfind(')') - open - 1);
    for (const std::string& each : split_at(inside, '/')) {
      const Unit* unit = find_unit(blanks_as_one(each));
      if (unit == nullptr || !column_has_figures(out.column)) {
        add("limits.column_unit", place, {verbatim("column", text), verbatim("unit", each)});
        return std::nullopt;
      }
      out.units.push_back(unit->id);
    }
    return out;
  }

  /// The one mark that all figures of the table have; nothing where both are used, or none.
  std::optional<DecimalMark> decimal_mark() {
    bool point = false;
    bool comma = false;
    for (const Row& row : table_.rows) {
      for (std::size_t i = 0; i < columns_.size(); ++i) {
        if (!column_has_figures(columns_[i]->column)) continue;
        const std::string& text = row.cells[i].text;
        for (std::size_t at = 0; at + 1 < text.size(); ++at) {
          const bool between = text[at + 1] >= '0' && text[at + 1] <= '9';
          point = point || (between && text[at] == '.' && (at == 0 || text[at - 1] != '.'));
          comma = comma || (between && text[at] == ',');
        }
      }
    }
    if (point == comma || (comma && !has_decimal_comma())) return std::nullopt;
    return point ? DecimalMark::point : DecimalMark::comma;
  }

  /// Whether a comma of the table can be nothing but a decimal mark: "84,0", "84,020 mm", not "1,250 N".
  bool has_decimal_comma() {
    for (const Row& row : table_.rows) {
      for (std::size_t i = 0; i < columns_.size(); ++i) {
        const std::string& text = row.cells[i].text;
        const auto between = [](char before, char behind) { return before == ',' && behind >= '0' && behind <= '9'; };
        if (!column_has_figures(columns_[i]->column) || std::adjacent_find(text.begin(), text.end(), between) == text.end()) continue;
        SheetRow alone{};
        Problems problems;
        read_sheet_cell(alone, columns_[i]->column, text, {columns_[i]->units, {}}, {}, problems);
        if (problems.empty()) return true;
      }
    }
    return false;
  }

  void read_row(const Row& row) {
    SheetRow out{};
    out.place = {file_, row.line, {}};
    const std::size_t before = problems_.size();
    for (std::size_t i = 0; i < columns_.size(); ++i) read_sheet_cell(out, columns_[i]->column, row.cells[i].text, {columns_[i]->units, mark_}, table_.place(row, i), problems_);
    if (out.page.empty()) out.page = page_;
    if (out.what.empty() && (!out.step.empty() || !out.grade.empty())) goes_on(out);
    if (problems_.size() > before || is_blank(row)) return;
    if (out.what.empty()) return add("limits.row_unnamed", out.place);
    if (!says_something(out)) return add("limits.row_empty", out.place, {verbatim("what", out.what)});
    if (out.id.empty()) out.id = ids_.id_for(out);
    sheet_.rows.push_back(std::move(out));
  }

  /// A row that a spreadsheet wrote for nothing.
  static bool is_blank(const Row& row) {
    return std::all_of(row.cells.begin(), row.cells.end(), [](const Cell& each) { return each.text.empty(); });
  }

  /// Cells that were one cell in the book.
  void goes_on(SheetRow& out) const {
    if (sheet_.rows.empty()) return;
    const SheetRow& above = sheet_.rows.back();
    out.what = above.what;
    if (out.kind.empty()) out.kind = above.kind;
    if (!out.characteristic) out.characteristic = above.characteristic;
    if (out.definition.empty()) out.definition = above.definition;
  }

  const std::string& file_;
  const Catalogue& known_;
  Table table_;
  std::vector<std::optional<KnownColumn>> columns_;
  std::optional<DecimalMark> mark_;
  std::string page_;
  RowIds ids_;
  LimitSheet sheet_;
  Problems problems_;
};

std::string from_utf16(std::string_view bytes, bool big) {
  std::vector<char32_t> points;
  for (std::size_t i = 0; i + 1 < bytes.size(); i += 2) {
    const auto high = static_cast<unsigned char>(bytes[big ? i : i + 1]);
    const auto low = static_cast<unsigned char>(bytes[big ? i + 1 : i]);
    points.push_back(static_cast<char32_t>(high << 8 | low));
  }
  return utf8(points, 0, points.size());
}

}  // namespace

std::string table_as_utf8(std::string_view bytes) {
  if (bytes.starts_with("\xFF\xFE")) return from_utf16(bytes.substr(2), false);
  if (bytes.starts_with("\xFE\xFF")) return from_utf16(bytes.substr(2), true);
  if (bytes.starts_with("\xEF\xBB\xBF")) bytes.remove_prefix(3);
  if (is_utf8(bytes)) return std::string(bytes);
  constexpr std::u32string_view kOffice = U"€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008DŽ\u008F\u0090‘’“”•–—˜™š›œ\u009DžŸ";
  std::vector<char32_t> points;
  for (const char each : bytes) {
    const auto byte = static_cast<unsigned char>(each);
    points.push_back(byte >= 0x80 && byte < 0xA0 ? kOffice[byte - 0x80] : static_cast<char32_t>(byte));
  }
  return utf8(points, 0, points.size());
}

Result<LimitSheet> read_sheet_table(std::string_view bytes, const std::string& file, const Catalogue& known) { return TableOfLimits(file, known).read(bytes); }

}  // namespace fettle
