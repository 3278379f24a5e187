#pragma once

#include <cstdint>
#include <fstream>
#include <map>
#include <optional>
#include <string>
#include <string_view>

namespace fettle::sqlite {

/// The number that `count` bytes from `at` spell, most significant first; what lies beyond the end counts as 0.
[[nodiscard]] std::uint64_t big_endian(std::string_view bytes, std::size_t at, std::size_t count);

/// The pages of a database file and of the write-ahead log beside it, read as bytes, without SQLite. Of the log only frames up to the last
/// whole commit count, as their salts and checksums tell. Numbers begin at 1.
class PageFile {
 public:
  PageFile(const std::string& path, std::size_t page_bytes);

  [[nodiscard]] std::uint32_t pages() const;
  [[nodiscard]] std::size_t page_bytes() const { return page_bytes_; }
  /// As last committed.
  [[nodiscard]] std::optional<std::string> page(std::uint32_t number);
  /// The version in the file itself where the log holds a newer one, else nothing.
  [[nodiscard]] std::optional<std::string> older_page(std::uint32_t number);

 private:
  void read_log(const std::string& path);
  std::optional<std::string> read(std::ifstream& file, std::uint64_t at) const;

  std::size_t page_bytes_;
  std::ifstream file_;
  std::ifstream log_;
  std::uint32_t file_pages_ = 0;
  std::map<std::uint32_t, std::uint64_t> committed_;  ///< page to where its bytes stand in the log
};

}  // namespace fettle::sqlite
