#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace fettle {

/// Writes a table that read_table and any spreadsheet read back cell by cell (RFC 4180): a cell stands in quotes where it holds the
/// separator, a quote or a line end, begins or ends with a blank, or would be taken for a comment. Within a cell the reader makes one
/// line end of each CR and CRLF; everything else comes back as it was.
class TableWriter {
 public:
  /// `separator`: comma, semicolon or tab. `line_end`: "\n", or "\r\n" as the RFC has it.
  TableWriter(char separator, std::string_view line_end) : separator_(separator), line_end_(line_end) {}

  /// The header is the first row.
  void row(const std::vector<std::string>& cells);
  [[nodiscard]] const std::string& text() const { return text_; }

 private:
  char separator_;
  std::string line_end_;
  std::string text_;
};

}  // namespace fettle
