#pragma once

#include <optional>
#include <string>
#include <vector>

#include "store/store.h"
#include "store_sqlite/connection.h"

namespace fettle::sqlite {

void keep_file_row(Connection& writer, const StoredFile& file);
[[nodiscard]] std::optional<StoredFile> file_row(Connection& reader, const std::string& hash);
[[nodiscard]] std::vector<StoredFileRow> file_list(Connection& reader);
/// Whether bytes, type and thumbnail are those that were kept; `seal` as the row has it.
[[nodiscard]] bool is_as_kept(const StoredFile& file, const std::string& seal);
/// Reads the row with this number, verified by nothing.
struct FileAndSeal {
  StoredFile file;
  std::string seal;
};
[[nodiscard]] std::optional<FileAndSeal> unverified_file(Connection& reader, std::int64_t number);

}  // namespace fettle::sqlite
