#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace fettle {

/// Marks and fixed lengths of a ZIP archive's records (APPNOTE 6.3.10, sections 4.3.7, 4.3.12, 4.3.16), and what the fields say.
inline constexpr std::string_view kFileMark = "PK\x03\x04";
inline constexpr std::string_view kDirectoryMark = "PK\x01\x02";
inline constexpr std::string_view kEndMark = "PK\x05\x06";
inline constexpr std::string_view kLargeEndMark = "PK\x06\x07";  ///< of the locator for archives above 4 GiB
inline constexpr std::size_t kFileRecord = 30;
inline constexpr std::size_t kDirectoryRecord = 46;
inline constexpr std::size_t kEndRecord = 22;
inline constexpr std::size_t kLargeEndRecord = 20;
inline constexpr std::size_t kLongestComment = 65535;
inline constexpr std::uint32_t kStored = 0;
inline constexpr std::uint32_t kDeflated = 8;
inline constexpr std::uint32_t kNamesInUtf8 = 0x0800;
inline constexpr std::uint32_t kEncrypted = 0x2041;     ///< bits 0, 6 and 13 all speak of it
inline constexpr std::uint32_t kSizesFollow = 0x0008;   ///< the record before the bytes knows neither sizes nor checksum
inline constexpr std::uint32_t kElsewhere = 0xFFFFFFFF; ///< a size that stands in a field for archives above 4 GiB
inline constexpr std::uint32_t kMadeOnUnix = 3;

/// One entry as the directory at the end lists it, and where its bytes lie.
struct ZipEntry {
  std::string name;
  std::uint32_t flags;
  std::uint32_t method;
  std::uint32_t checksum;
  std::uint64_t packed_size;
  std::uint64_t size;
  std::uint64_t record_at;          ///< of the record before the bytes
  std::uint64_t bytes_at;
  std::optional<std::uint32_t> mode;  ///< file type and rights, where it was made on Unix
};

/// The number of `width` bytes at `at`, lowest byte first. Needs: it lies within `bytes`.
[[nodiscard]] std::uint32_t number_at(std::string_view bytes, std::size_t at, std::size_t width);

/// Reads the directory, and holds each entry's record before its bytes against it. No two entries share bytes. Problems:
/// archive.not_zip, archive.cut_off, archive.damaged, archive.other_zip, archive.too_many.
[[nodiscard]] Result<std::vector<ZipEntry>> read_zip_directory(std::string_view bytes, const Place& place);

/// 32-bit cyclic redundancy checksum as ZIP has it.
[[nodiscard]] std::uint32_t zip_checksum(std::string_view bytes);

/// The bytes of an entry; nothing if they do not have the entry's size and checksum. Needs: stored or deflated.
[[nodiscard]] std::optional<std::string> zip_bytes(std::string_view archive, const ZipEntry& entry);

}  // namespace fettle
