#include "entry/table.h"

#include <algorithm>
#include <array>
#include <set>

#include "base/document.h"

namespace fettle {
namespace {

constexpr std::size_t kLongestLine = 64U << 10U;
constexpr std::size_t kMostRows = 200'000;
constexpr std::array<char, 3> kSeparators = {';', '\t', ','};

bool continues(char c) { return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U; }

std::string trimmed(const std::string& text) {
  const auto first = text.find_first_not_of(" \t");
  if (first == std::string::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

/// The first of semicolon, tab and comma that the header line has.
char separator_of(std::string_view line) {
  for (char each : kSeparators) {
    if (line.find(each) != std::string_view::npos) return each;
  }
  return ',';
}

class RecordReader {
 public:
  RecordReader(std::string_view text, const std::string& file, Problems& problems)
      : rest_(text), problems_(problems), table_{file, ',', {}, {}} {}

  Table read() {
    constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
    if (rest_.starts_with(kByteOrderMark)) rest_.remove_prefix(kByteOrderMark.size());
    while (!rest_.empty() && table_.rows.size() <= kMostRows) {
      if (!skip_line()) read_record();
    }
    if (table_.rows.size() > kMostRows) {
      add("entry.table_too_many_rows", line_, 1, {count("most", static_cast<std::int64_t>(kMostRows))});
      table_.rows.clear();
    }
    if (table_.header.empty()) add("entry.table_empty", 1, 1, {});
    return std::move(table_);
  }

 private:
  void add(const char* code, int line, int column, std::vector<Argument> arguments) {
    problems_.push_back({code, {table_.file, line, column}, std::move(arguments)});
  }

  /// Blank lines and comments.
  bool skip_line() {
    const auto end = std::min(rest_.find('\n'), rest_.size());
    std::string_view line = rest_.substr(0, end);
    if (line.ends_with('\r')) line.remove_suffix(1);
    const auto first = line.find_first_not_of(" \t");
    if (first != std::string_view::npos && line[first] != '#') return false;
    next_line(end);
    return true;
  }

  void next_line(std::size_t end) {
    rest_.remove_prefix(std::min(end + 1, rest_.size()));
    ++line_;
  }

  void read_record() {
    const bool header = table_.header.empty();
    const auto line_end = std::min(rest_.find('\n'), rest_.size());
    if (header) table_.separator = separator_of(rest_.substr(0, line_end));
    if (line_end > kLongestLine) {
      add("entry.table_line_too_long", line_, 1, {count("most", static_cast<std::int64_t>(kLongestLine >> 10U))});
      next_line(line_end);
      return;
    }
    Row row{line_, {}};
    const bool sound = read_cells(row);
    if (header) {
      keep_header(row);
    } else if (sound) {
      keep_row(std::move(row));
    }
  }

  /// Reads cells up to the end of the record. A quoted cell may hold line breaks.
  bool read_cells(Row& row) {
    int column = 1;
    bool sound = true;
    while (true) {
      Cell cell{{}, column};
      const bool quoted = !rest_.empty() && rest_.front() == '"';
      if (quoted && !read_quoted(cell, column)) return false;
      const std::size_t end = std::min(rest_.find_first_of(std::string{table_.separator, '\n', '\r'}), rest_.size());
      const std::string_view plain = rest_.substr(0, end);
      column += static_cast<int>(std::count_if(plain.begin(), plain.end(), [](char c) { return !continues(c); }));
      if (quoted && plain.find_first_not_of(" \t") != std::string_view::npos) {
        add("entry.table_quote_inside", line_, cell.column, {});
        sound = false;
      }
      if (!quoted) cell.text = trimmed(std::string(plain));
      rest_.remove_prefix(end);
      row.cells.push_back(std::move(cell));
      if (rest_.starts_with("\r\n")) rest_.remove_prefix(1);
      if (rest_.empty() || rest_.front() == '\n' || rest_.front() == '\r') break;
      rest_.remove_prefix(1);
      ++column;
    }
    next_line(0);
    return sound;
  }

  bool read_quoted(Cell& cell, int& column) {
    const int opened = line_;
    rest_.remove_prefix(1);
    ++column;
    std::size_t i = 0;
    while (i < rest_.size() && i <= kLongestLine) {
      if (rest_[i] == '"' && (i + 1 >= rest_.size() || rest_[i + 1] != '"')) {
        rest_.remove_prefix(i + 1);
        ++column;
        return true;
      }
      if (rest_[i] == '"') ++i;
      if (rest_[i] == '\n') ++line_;
      if (!continues(rest_[i])) ++column;
      cell.text += rest_[i++];
    }
    add("entry.table_open_quote", opened, cell.column, {});
    rest_ = {};
    return false;
  }

  void keep_header(const Row& row) {
    std::set<std::string> seen;
    for (const Cell& cell : row.cells) {
      const std::string name = trimmed(cell.text);
      if (name.empty()) add("entry.table_column_unnamed", row.line, cell.column, {});
      if (!name.empty() && !seen.insert(name).second) add("entry.table_column_twice", row.line, cell.column, {verbatim("column", name)});
      table_.header.push_back(name);
    }
  }

  void keep_row(Row row) {
    const std::size_t wanted = table_.header.size();
    for (std::size_t i = wanted; i < row.cells.size(); ++i) {
      if (row.cells[i].text.empty()) continue;
      add("entry.table_too_many_cells", row.line, row.cells[i].column,
          {count("cells", static_cast<std::int64_t>(row.cells.size())), count("columns", static_cast<std::int64_t>(wanted))});
      return;
    }
    const int last = row.cells.empty() ? 1 : row.cells.back().column;
    row.cells.resize(wanted, Cell{{}, last});
    table_.rows.push_back(std::move(row));
  }

  std::string_view rest_;
  Problems& problems_;
  Table table_;
  int line_ = 1;
};

}  // namespace

std::optional<std::size_t> Table::find_column(std::string_view name) const {
  const auto found = std::find(header.begin(), header.end(), name);
  if (found == header.end()) return std::nullopt;
  return static_cast<std::size_t>(found - header.begin());
}

Table read_table(std::string_view text, const std::string& file, Problems& problems) {
  if (!text.empty() && !is_utf8(text)) {
    problems.push_back(Problem{"entry.table_not_utf8", {file, {}, {}}, {}});
    return {file, ',', {}, {}};
  }
  // One kind of line end from here on; a file with CR alone is a table too.
  std::string lines;
  lines.reserve(text.size());
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != '\r') {
      lines += text[i];
    } else if (i + 1 >= text.size() || text[i + 1] != '\n') {
      lines += '\n';
    }
  }
  return RecordReader(lines, file, problems).read();
}

}  // namespace fettle
