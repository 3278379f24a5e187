#pragma once

#include <optional>
#include <string_view>

namespace fettle {

/// Walks through the text of a table and knows the line and column of where it is. Line ends are LF, CR and CRLF.
class TableText {
 public:
  explicit TableText(std::string_view text) : rest_(text) {}

  [[nodiscard]] bool done() const { return rest_.empty(); }
  [[nodiscard]] bool at_line_end() const { return rest_.empty() || rest_.front() == '\n' || rest_.front() == '\r'; }
  [[nodiscard]] bool at(char c) const { return !rest_.empty() && rest_.front() == c; }
  [[nodiscard]] int line() const { return line_; }
  [[nodiscard]] int column() const { return column_; }
  [[nodiscard]] std::string_view rest() const { return rest_; }
  /// What is left of the line, without its end.
  [[nodiscard]] std::string_view rest_of_line() const;

  /// Goes on over `bytes` that hold no line end.
  void skip(std::size_t bytes);
  void skip_blanks();
  /// Goes on over one line end, if there is one.
  void skip_line_end();
  void skip_line();

 private:
  std::string_view rest_;
  int line_ = 1;
  int column_ = 1;
};

/// Line and column of the first byte that is no UTF-8, if there is one.
struct TextPosition {
  int line;
  int column;
};
[[nodiscard]] std::optional<TextPosition> first_bad_byte(std::string_view text);

/// The separator that the header line uses most outside its quotes; of equals the one that is no decimal mark.
[[nodiscard]] char separator_of(std::string_view header_line);

}  // namespace fettle
