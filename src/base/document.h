#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "base/result.h"

namespace fettle {

/// One value of a structured text file (TOML), with the place where it stands. A bare decimal number is kept as a
/// `BareFloat`: it has lost the digits a person typed, and the readers refuse it for quantities.
struct DocumentNode {
  struct BareFloat {
    double value;
  };
  struct Entry;
  using Table = std::vector<Entry>;
  using Array = std::vector<DocumentNode>;

  std::variant<std::string, std::int64_t, bool, BareFloat, Array, Table> value;
  Place place;

  [[nodiscard]] const std::string* text() const;
  [[nodiscard]] const Table* table() const;
  [[nodiscard]] const Array* array() const;
  /// The value under `key` of a table, or nothing.
  [[nodiscard]] const DocumentNode* find(std::string_view key) const;
};

struct DocumentNode::Entry {
  std::string key;
  DocumentNode node;
};

inline const std::string* DocumentNode::text() const { return std::get_if<std::string>(&value); }
inline const DocumentNode::Table* DocumentNode::table() const { return std::get_if<Table>(&value); }
inline const DocumentNode::Array* DocumentNode::array() const { return std::get_if<Array>(&value); }

/// Reads TOML. Gives the root table; a syntax error is the only problem reported (nothing after it can be trusted), code
/// `document.syntax`, with line and column. `file` is only for the places. Also refused: over 4 MiB, bytes that are no UTF-8.
[[nodiscard]] Result<DocumentNode> read_document(std::string_view text, const std::string& file);

/// True if `text` is well-formed UTF-8 without the zero byte.
[[nodiscard]] bool is_utf8(std::string_view text);

/// Of a text in UTF-8: whether it holds a control character, of ASCII or of the 32 behind it.
[[nodiscard]] bool has_control_character(std::string_view text);

}  // namespace fettle
