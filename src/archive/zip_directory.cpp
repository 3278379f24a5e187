#include "archive/zip_directory.h"

#include <algorithm>

#include "archive/archive.h"

namespace fettle {
namespace {

struct End {
  std::size_t at;
  std::uint32_t disk;
  std::uint32_t directory_disk;
  std::uint32_t entries_here;
  std::uint32_t entries;
  std::uint64_t directory_size;
  std::uint64_t directory_at;
};

bool has_mark(std::string_view bytes, std::size_t at, std::string_view mark) { return bytes.substr(at, mark.size()) == mark; }

/// The last record, whose comment must reach to the very end of the archive.
std::optional<End> find_end(std::string_view bytes) {
  if (bytes.size() < kEndRecord) return std::nullopt;
  const std::size_t most = std::min(bytes.size() - kEndRecord, kLongestComment);
  for (std::size_t comment = 0; comment <= most; ++comment) {
    const std::size_t at = bytes.size() - kEndRecord - comment;
    if (!has_mark(bytes, at, kEndMark) || number_at(bytes, at + 20, 2) != comment) continue;
    return End{at,
               number_at(bytes, at + 4, 2),
               number_at(bytes, at + 6, 2),
               number_at(bytes, at + 8, 2),
               number_at(bytes, at + 10, 2),
               number_at(bytes, at + 12, 4),
               number_at(bytes, at + 16, 4)};
  }
  return std::nullopt;
}

bool is_other_zip(std::string_view bytes, const End& end) {
  const bool large = end.at >= kLargeEndRecord && has_mark(bytes, end.at - kLargeEndRecord, kLargeEndMark);
  return large || end.disk != 0 || end.directory_disk != 0 || end.entries_here != end.entries || end.entries == 0xFFFF;
}

/// The entry of the directory that begins at `at`, which is moved behind it; nothing if it does not fit in before `end`.
std::optional<ZipEntry> read_entry(std::string_view bytes, std::size_t& at, std::size_t end) {
  if (end - at < kDirectoryRecord || !has_mark(bytes, at, kDirectoryMark)) return std::nullopt;
  const std::size_t name_size = number_at(bytes, at + 28, 2);
  const std::size_t rest = number_at(bytes, at + 30, 2) + number_at(bytes, at + 32, 2);
  if (end - at - kDirectoryRecord < name_size + rest) return std::nullopt;
  ZipEntry entry{std::string(bytes.substr(at + kDirectoryRecord, name_size)),
                 number_at(bytes, at + 8, 2),
                 number_at(bytes, at + 10, 2),
                 number_at(bytes, at + 16, 4),
                 number_at(bytes, at + 20, 4),
                 number_at(bytes, at + 24, 4),
                 number_at(bytes, at + 42, 4),
                 0,
                 std::nullopt};
  if (number_at(bytes, at + 5, 1) == kMadeOnUnix) entry.mode = number_at(bytes, at + 40, 2);
  at += kDirectoryRecord + name_size + rest;
  return entry;
}

bool same_size(std::uint64_t listed, std::uint32_t told) { return listed == told || told == kElsewhere; }

/// Whether the record before the bytes says the same as the directory. Sets where the bytes are; they end before `directory_at`.
bool agrees(std::string_view bytes, ZipEntry& entry, std::uint64_t directory_at) {
  if (entry.record_at + kFileRecord + entry.name.size() > directory_at) return false;
  const std::size_t at = entry.record_at;
  if (!has_mark(bytes, at, kFileMark)) return false;
  const std::uint32_t flags = number_at(bytes, at + 6, 2);
  if (number_at(bytes, at + 26, 2) != entry.name.size() || bytes.substr(at + kFileRecord, entry.name.size()) != entry.name) return false;
  if (number_at(bytes, at + 8, 2) != entry.method || ((flags ^ entry.flags) & kEncrypted) != 0) return false;
  if ((flags & kSizesFollow) == 0) {
    if (number_at(bytes, at + 14, 4) != entry.checksum) return false;
    if (!same_size(entry.packed_size, number_at(bytes, at + 18, 4)) || !same_size(entry.size, number_at(bytes, at + 22, 4))) return false;
  }
  entry.bytes_at = entry.record_at + kFileRecord + entry.name.size() + number_at(bytes, at + 28, 2);
  return entry.bytes_at + entry.packed_size <= directory_at;
}

/// Two entries that share bytes are how a small archive unpacks to a huge one.
bool lie_apart(const std::vector<ZipEntry>& entries) {
  std::vector<std::pair<std::uint64_t, std::uint64_t>> spans;
  spans.reserve(entries.size());
  for (const ZipEntry& each : entries) spans.emplace_back(each.record_at, each.bytes_at + each.packed_size);
  std::sort(spans.begin(), spans.end());
  for (std::size_t i = 1; i < spans.size(); ++i) {
    if (spans[i].first < spans[i - 1].second) return false;
  }
  return true;
}

Result<std::vector<ZipEntry>> read_entries(std::string_view bytes, const End& end, const Place& place) {
  std::vector<ZipEntry> out;
  std::size_t at = end.directory_at;
  for (std::uint32_t i = 0; i < end.entries; ++i) {
    std::optional<ZipEntry> entry = read_entry(bytes, at, end.at);
    if (!entry) return Problem{"archive.damaged", place, {}};
    if (entry->size == kElsewhere || entry->packed_size == kElsewhere || entry->record_at == kElsewhere) {
      return Problem{"archive.other_zip", place, {}};
    }
    if (!agrees(bytes, *entry, end.directory_at)) return Problem{"archive.damaged", place, {}};
    out.push_back(*std::move(entry));
  }
  if (at != end.at || !lie_apart(out)) return Problem{"archive.damaged", place, {}};
  return out;
}

}  // namespace

std::uint32_t number_at(std::string_view bytes, std::size_t at, std::size_t width) {
  FETTLE_ASSERT(at + width <= bytes.size(), std::to_string(at));
  std::uint32_t out = 0;
  for (std::size_t i = width; i > 0; --i) out = (out << 8U) | static_cast<unsigned char>(bytes[at + i - 1]);
  return out;
}

Result<std::vector<ZipEntry>> read_zip_directory(std::string_view bytes, const Place& place) {
  const std::optional<End> end = find_end(bytes);
  if (!end) return Problem{bytes.starts_with("PK") ? "archive.cut_off" : "archive.not_zip", place, {}};
  if (is_other_zip(bytes, *end)) return Problem{"archive.other_zip", place, {}};
  if (end->directory_at + end->directory_size != end->at) return Problem{"archive.damaged", place, {}};
  if (end->entries > kMostPackedFiles) {
    return Problem{"archive.too_many", place, {count("most", static_cast<std::int64_t>(kMostPackedFiles))}};
  }
  return read_entries(bytes, *end, place);
}

}  // namespace fettle
