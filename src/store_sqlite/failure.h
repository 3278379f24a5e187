#pragma once

#include <string>

#include "store/store.h"

namespace fettle::sqlite {

/// What SQLite's extended result code means to a person, about the store `path`. `detail` is SQLite's own sentence, shown only where the
/// database is damaged. A code that only a mistake of ours can bring throws InternalError.
[[nodiscard]] StoreError failure(int code, const std::string& path, const std::string& detail);

/// A problem that says nothing but which file or folder.
[[nodiscard]] StoreError about(const std::string& path, const char* code);
[[nodiscard]] StoreError damaged(const std::string& path, const std::string& detail);
/// Whether it says that the database is damaged, so that its pages may still be read one by one.
[[nodiscard]] bool is_damage(const StoreError& error);

[[nodiscard]] std::string folder_of(const std::string& path);

}  // namespace fettle::sqlite
