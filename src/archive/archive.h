#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace fettle {

inline constexpr std::size_t kMostPackedFiles = 50'000;
/// Of all files together, as they are after unpacking: 2 GiB.
inline constexpr std::uint64_t kMostPackedBytes = std::uint64_t{1} << 31U;
/// In bytes of UTF-8.
inline constexpr std::size_t kLongestPackedName = 255;

/// A file by its name in an archive: `events.jsonl`, `attachments/1f2e.jpg`.
struct PackedFile {
  std::string name;
  std::string bytes;
  bool operator==(const PackedFile&) const = default;
};

/// Whether `name` is well-formed UTF-8, not too long, and leads nowhere but below the folder in which it is unpacked: parts between `/`, none
/// of them empty, `.` or `..`; no `\`, no `:`, no control character.
[[nodiscard]] bool may_be_packed(std::string_view name);

/// What stands in the way of `pack`: archive.name, archive.name_twice, archive.too_many, archive.too_large. Empty: nothing.
[[nodiscard]] Problems why_not_packed(const std::vector<PackedFile>& files, const Place& place);

/// One ZIP archive (APPNOTE 6.3.10) of the files in the order given, each stored as it is, with the time stamp 1980-01-01 00:00. The same files
/// give the same bytes on every machine. Needs: why_not_packed gives nothing, else an assertion.
[[nodiscard]] std::string pack(const std::vector<PackedFile>& files);

/// The files of a ZIP archive in its order, stored or deflated, whoever packed it; folders are passed over. Either all of them, each with the
/// bytes that its checksum belongs to and the name that both places of the archive give, or a refusal: archive.not_zip, archive.cut_off,
/// archive.damaged, archive.file_damaged, archive.other_zip (over 4 GiB or in several pieces), archive.encrypted, archive.method,
/// archive.link, and those of why_not_packed. Sizes are checked before anything is unpacked.
[[nodiscard]] Result<std::vector<PackedFile>> unpack(std::string_view bytes, const Place& place);

}  // namespace fettle
