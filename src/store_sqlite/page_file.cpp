#include "store_sqlite/page_file.h"

#include <algorithm>

namespace fettle::sqlite {
namespace {

// Source: the file format of SQLite, section "The Write-Ahead Log".
constexpr std::size_t kLogHeader = 32;
constexpr std::size_t kFrameHeader = 24;
constexpr std::uint64_t kLogMagic = 0x377f0682;

std::uint32_t word_at(std::string_view bytes, std::size_t at) { return static_cast<std::uint32_t>(big_endian(bytes, at, 4)); }

std::uint32_t turned(std::uint32_t word) {
  return (word >> 24U) | ((word >> 8U) & 0xFF00U) | ((word << 8U) & 0xFF0000U) | (word << 24U);
}

/// The running checksum of the log, over words of the byte order that its magic number names.
struct Checksum {
  bool big;
  std::uint32_t first = 0;
  std::uint32_t second = 0;
  void add(std::string_view bytes) {
    for (std::size_t at = 0; at + 8 <= bytes.size(); at += 8) {
      first += word(bytes, at) + second;
      second += word(bytes, at + 4) + first;
    }
  }
  [[nodiscard]] bool stands_at(std::string_view bytes, std::size_t at) const {
    return word_at(bytes, at) == first && word_at(bytes, at + 4) == second;
  }

 private:
  [[nodiscard]] std::uint32_t word(std::string_view bytes, std::size_t at) const {
    return big ? word_at(bytes, at) : turned(word_at(bytes, at));
  }
};

bool read_bytes(std::ifstream& file, std::string& bytes) {
  file.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  return file.gcount() == static_cast<std::streamsize>(bytes.size());
}

}  // namespace

std::uint64_t big_endian(std::string_view bytes, std::size_t at, std::size_t count) {
  std::uint64_t out = 0;
  for (std::size_t i = at; i < at + count; ++i) out = out << 8U | (i < bytes.size() ? static_cast<unsigned char>(bytes[i]) : 0U);
  return out;
}

PageFile::PageFile(const std::string& path, std::size_t page_bytes)
    : page_bytes_(page_bytes), file_(path, std::ios::binary), log_(path + "-wal", std::ios::binary) {
  file_.seekg(0, std::ios::end);
  if (file_) file_pages_ = static_cast<std::uint32_t>(static_cast<std::uint64_t>(file_.tellg()) / page_bytes);
  if (log_) read_log(path + "-wal");
}

void PageFile::read_log(const std::string& path) {
  std::ifstream log(path, std::ios::binary);
  std::string header(kLogHeader, '\0');
  if (!read_bytes(log, header) || (word_at(header, 0) & ~1U) != kLogMagic || word_at(header, 8) != page_bytes_) return;
  Checksum sum{(word_at(header, 0) & 1U) != 0};
  sum.add(std::string_view(header).substr(0, 24));
  if (!sum.stands_at(header, 24)) return;
  std::map<std::uint32_t, std::uint64_t> open;
  std::string frame(kFrameHeader + page_bytes_, '\0');
  for (std::uint64_t at = kLogHeader; read_bytes(log, frame); at += frame.size()) {
    sum.add(std::string_view(frame).substr(0, 8));
    sum.add(std::string_view(frame).substr(kFrameHeader));
    const bool same_salts = frame.compare(8, 8, header, 16, 8) == 0;
    if (!same_salts || !sum.stands_at(frame, 16)) return;
    open[word_at(frame, 0)] = at + kFrameHeader;
    if (word_at(frame, 4) == 0) continue;
    for (const auto& [number, where] : open) committed_[number] = where;
    open.clear();
  }
}

std::uint32_t PageFile::pages() const {
  return committed_.empty() ? file_pages_ : std::max(file_pages_, committed_.rbegin()->first);
}

std::optional<std::string> PageFile::page(std::uint32_t number) {
  const auto found = committed_.find(number);
  if (found != committed_.end()) return read(log_, found->second);
  if (number == 0 || number > file_pages_) return std::nullopt;
  return read(file_, std::uint64_t{number - 1} * page_bytes_);
}

std::optional<std::string> PageFile::older_page(std::uint32_t number) {
  if (committed_.count(number) == 0 || number > file_pages_) return std::nullopt;
  return read(file_, std::uint64_t{number - 1} * page_bytes_);
}

std::optional<std::string> PageFile::read(std::ifstream& file, std::uint64_t at) const {
  std::string bytes(page_bytes_, '\0');
  file.clear();
  file.seekg(static_cast<std::streamoff>(at));
  if (!read_bytes(file, bytes)) return std::nullopt;
  return bytes;
}

}  // namespace fettle::sqlite
