#include "archive/archive.h"
#include "archive/zip_directory.h"

namespace fettle {
namespace {

constexpr std::uint32_t kVersionNeeded = 20;            ///< 2.0, the least that knows names with folders
constexpr std::uint32_t kFirstDay = 0x0021;             ///< 1980-01-01, the first day that ZIP knows
constexpr std::uint32_t kReadableByAll = 0100644;       ///< a plain file, on Unix

void put(std::string& out, std::uint64_t number, std::size_t width) {
  for (std::size_t i = 0; i < width; ++i) {
    out += static_cast<char>(static_cast<unsigned char>(number & 0xFFU));
    number >>= 8U;
  }
}

/// The fields that stand alike before the bytes and in the directory.
void put_shared(std::string& out, const PackedFile& file) {
  put(out, kVersionNeeded, 2);
  put(out, kNamesInUtf8, 2);
  put(out, kStored, 2);
  put(out, 0, 2);  // midnight
  put(out, kFirstDay, 2);
  put(out, zip_checksum(file.bytes), 4);
  put(out, file.bytes.size(), 4);
  put(out, file.bytes.size(), 4);
  put(out, file.name.size(), 2);
  put(out, 0, 2);  // no further fields
}

void put_file(std::string& out, const PackedFile& file) {
  out += kFileMark;
  put_shared(out, file);
  out += file.name;
  out += file.bytes;
}

void put_in_directory(std::string& out, const PackedFile& file, std::uint64_t record_at) {
  out += kDirectoryMark;
  put(out, (kMadeOnUnix << 8U) | kVersionNeeded, 2);
  put_shared(out, file);
  put(out, 0, 2);  // no comment
  put(out, 0, 2);  // first and only piece
  put(out, 0, 2);  // not said whether it is text
  put(out, std::uint64_t{kReadableByAll} << 16U, 4);
  put(out, record_at, 4);
  out += file.name;
}

void put_end(std::string& out, std::size_t entries, std::uint64_t directory_at, std::uint64_t directory_size) {
  out += kEndMark;
  put(out, 0, 4);  // one piece
  put(out, entries, 2);
  put(out, entries, 2);
  put(out, directory_size, 4);
  put(out, directory_at, 4);
  put(out, 0, 2);  // no comment
}

}  // namespace

std::string pack(const std::vector<PackedFile>& files) {
  const Problems problems = why_not_packed(files, {});
  FETTLE_ASSERT(problems.empty(), problems.front().code);
  std::string out;
  std::string directory;
  for (const PackedFile& each : files) {
    put_in_directory(directory, each, out.size());
    put_file(out, each);
  }
  const std::uint64_t directory_at = out.size();
  out += directory;
  put_end(out, files.size(), directory_at, directory.size());
  return out;
}

}  // namespace fettle
