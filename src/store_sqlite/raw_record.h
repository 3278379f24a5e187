#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "store_sqlite/page_file.h"

namespace fettle::sqlite {

/// One column of a row as it stands in a page: nothing, a whole number, or the bytes of a text or blob.
using RawValue = std::variant<std::monostate, std::int64_t, std::string>;
using RawRecord = std::vector<RawValue>;

/// One row of a table (its number beside it) or one entry of an index.
struct RawCell {
  std::int64_t number;
  RawRecord record;
};

enum class PageSort { rows_of_table, entries_of_index, other };

/// What page this is, judged by its first byte. `number` is the page's, because the first page begins with the file's header.
[[nodiscard]] PageSort sort_of_page(const std::string& page, std::uint32_t number);

/// All cells of a page that can be read; a cell that makes no sense is left out. Follows overflow pages through `pages`.
/// Source: the file format of SQLite, sections "B-tree Pages" and "Record Format".
[[nodiscard]] std::vector<RawCell> cells_of(const std::string& page, std::uint32_t number, PageFile& pages);

}  // namespace fettle::sqlite
