#include "entry/table.h"

#include <algorithm>
#include <set>

#include "entry/table_text.h"

namespace fettle {
namespace {

constexpr std::size_t kLongestLine = 64U << 10U;
constexpr std::size_t kMostRows = 200'000;

std::string_view trimmed(std::string_view text) {
  const auto first = text.find_first_not_of(" \t");
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

class TableReader {
 public:
  TableReader(std::string_view text, const std::string& file, Problems& problems)
      : walk_(text), problems_(problems), table_{file, ',', {}, {}} {}

  Table read() {
    while (!walk_.done() && skipped_line()) {
    }
    if (walk_.done()) {
      add("entry.table_empty", 1, 1, {});
    } else if (read_header()) {
      read_rows();
    }
    return std::move(table_);
  }

 private:
  void add(const char* code, int line, int column, std::vector<Argument> arguments) {
    problems_.push_back({code, {table_.file, line, column}, std::move(arguments)});
  }

  /// Goes over a blank line or a comment.
  bool skipped_line() {
    const std::string_view line = trimmed(walk_.rest_of_line());
    if (!line.empty() && line.front() != '#') return false;
    walk_.skip_line();
    return true;
  }

  bool read_header() {
    table_.separator = separator_of(walk_.rest_of_line());
    const auto row = read_row();
    if (!row) return false;
    std::set<std::string> seen;
    for (const Cell& cell : row->cells) {
      std::string name(trimmed(cell.text));
      if (name.empty()) add("entry.table_column_unnamed", cell.line, cell.column, {});
      if (!name.empty() && !seen.insert(name).second) {
        add("entry.table_column_twice", cell.line, cell.column, {verbatim("column", name)});
      }
      table_.header.push_back(std::move(name));
    }
    return true;
  }

  void read_rows() {
    // Rows with a problem count too: a table of nothing but problems must end somewhere.
    std::size_t rows = 0;
    while (!walk_.done()) {
      if (skipped_line()) continue;
      if (++rows > kMostRows) {
        add("entry.table_too_many_rows", walk_.line(), 1, {count("most", static_cast<std::int64_t>(kMostRows))});
        table_.rows.clear();
        return;
      }
      if (auto row = read_row()) keep_row(std::move(*row));
    }
  }

  /// One record, or nothing and a problem. A record that cannot be read ends with the line that it began on.
  std::optional<Row> read_row() {
    if (walk_.rest_of_line().size() > kLongestLine) {
      add("entry.table_line_too_long", walk_.line(), 1, {count("most", static_cast<std::int64_t>(kLongestLine >> 10U))});
      walk_.skip_line();
      return std::nullopt;
    }
    const TableText beginning = walk_;
    Row row{walk_.line(), {}};
    row.cells.reserve(table_.header.size());
    bool sound = true;
    while (true) {
      if (!read_cell(row, sound)) {
        walk_ = beginning;
        walk_.skip_line();
        return std::nullopt;
      }
      if (walk_.at_line_end()) break;
      walk_.skip(1);
    }
    walk_.skip_line_end();
    return sound ? std::optional<Row>(std::move(row)) : std::nullopt;
  }

  [[nodiscard]] std::string_view up_to_separator() const {
    const std::string_view rest = walk_.rest();
    const char separator = table_.separator;
    std::size_t end = 0;
    while (end < rest.size() && rest[end] != separator && rest[end] != '\n' && rest[end] != '\r') ++end;
    return rest.substr(0, end);
  }

  /// Reads one cell; `false` if its quote is never closed.
  bool read_cell(Row& row, bool& sound) {
    while (!walk_.at(table_.separator) && (walk_.at(' ') || walk_.at('\t'))) walk_.skip(1);
    if (walk_.at('"')) return read_quoted(row, sound);
    const std::string_view text = up_to_separator();
    row.cells.push_back({std::string(trimmed(text)), walk_.line(), walk_.column()});
    walk_.skip(text.size());
    return true;
  }

  /// A quoted cell may hold separators and line breaks; a quote in it is written twice.
  bool read_quoted(Row& row, bool& sound) {
    const int line = walk_.line();
    const int column = walk_.column();
    walk_.skip(1);
    Cell cell{{}, walk_.line(), walk_.column()};
    while (true) {
      const std::string_view rest = walk_.rest();
      const std::size_t run = rest.find_first_of("\"\r\n");
      if (run == std::string_view::npos || cell.text.size() + run > kLongestLine) {
        add("entry.table_open_quote", line, column, {});
        return false;
      }
      cell.text += rest.substr(0, run);
      walk_.skip(run);
      if (!walk_.at('"')) {
        cell.text += '\n';
        walk_.skip_line_end();
        continue;
      }
      walk_.skip(1);
      if (!walk_.at('"')) break;
      cell.text += '"';
      walk_.skip(1);
    }
    row.cells.push_back(std::move(cell));
    const std::string_view behind = up_to_separator();
    if (!trimmed(behind).empty()) {
      add("entry.table_quote_inside", walk_.line(), walk_.column(), {});
      sound = false;
    }
    walk_.skip(behind.size());
    return true;
  }

  void keep_row(Row row) {
    const std::size_t wanted = table_.header.size();
    for (std::size_t i = wanted; i < row.cells.size(); ++i) {
      if (row.cells[i].text.empty()) continue;
      add("entry.table_too_many_cells", row.cells[i].line, row.cells[i].column,
          {count("cells", static_cast<std::int64_t>(row.cells.size())), count("columns", static_cast<std::int64_t>(wanted))});
      return;
    }
    const Cell missing{{}, row.cells.back().line, row.cells.back().column};
    row.cells.resize(wanted, missing);
    table_.rows.push_back(std::move(row));
  }

  TableText walk_;
  Problems& problems_;
  Table table_;
};

}  // namespace

std::optional<std::size_t> Table::find_column(std::string_view name) const {
  const auto found = std::find(header.begin(), header.end(), name);
  if (found == header.end()) return std::nullopt;
  return static_cast<std::size_t>(found - header.begin());
}

Table read_table(std::string_view text, const std::string& file, Problems& problems) {
  if (const auto bad = first_bad_byte(text)) {
    problems.push_back(Problem{"entry.table_not_utf8", {file, bad->line, bad->column}, {}});
    return {file, ',', {}, {}};
  }
  constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
  if (text.starts_with(kByteOrderMark)) text.remove_prefix(kByteOrderMark.size());
  return TableReader(text, file, problems).read();
}

}  // namespace fettle
