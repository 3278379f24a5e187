#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace fettle {

/// A text as a TOML value, on one line: quotes, backslashes and control characters are escaped. Needs UTF-8; a reader refuses all else.
[[nodiscard]] std::string toml_text(std::string_view text);
[[nodiscard]] std::string toml_list(const std::vector<std::string>& texts);
/// Without quotes where TOML lets a key stand so.
[[nodiscard]] std::string toml_key(std::string_view key);

/// Writes TOML from top to bottom, as a person would. What there is nothing of is left out: an empty text, an empty list.
class TomlText {
 public:
  /// `head` with its brackets, as "[[part]]"; a blank line stands before it.
  void table(std::string_view head);
  void text(std::string_view key, std::string_view value);
  void text_if(std::string_view key, const std::optional<std::string>& value);
  void list(std::string_view key, const std::vector<std::string>& values);
  void truth(std::string_view key, bool value);
  void whole(std::string_view key, std::int64_t value);
  /// A list of tables, each on a line of its own, of which every entry is "key = value".
  void tables(std::string_view key, const std::vector<std::vector<std::string>>& entries);
  void table_on_a_line(std::string_view key, const std::vector<std::string>& entries);
  /// Control characters, which no comment may hold, are written as question marks.
  void comment(std::string_view line);
  [[nodiscard]] const std::string& all() const { return text_; }

 private:
  void line(std::string_view key, const std::string& value);
  std::string text_;
};

}  // namespace fettle
