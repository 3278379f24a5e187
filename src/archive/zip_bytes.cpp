#define ZLIB_CONST  // zlib's input is then a pointer to const
#include <zlib.h>

#include <algorithm>
#include <array>

#include "archive/zip_directory.h"

namespace fettle {
namespace {

constexpr std::size_t kStep = 65536;
/// Deflate gives at most 258 bytes for every two bits.
constexpr std::uint64_t kMostGrowth = 1032;
constexpr int kNoHeader = -15;  ///< as inflateInit2 wants it: the bare stream, with the largest window

const Bytef* zlib_bytes(std::string_view bytes) { return static_cast<const Bytef*>(static_cast<const void*>(bytes.data())); }

class Inflater {
 public:
  explicit Inflater(std::string_view packed) {
    FETTLE_ASSERT(inflateInit2(&stream_, kNoHeader) == Z_OK, "zlib could not start");
    stream_.next_in = zlib_bytes(packed);
    stream_.avail_in = static_cast<uInt>(packed.size());
  }
  Inflater(const Inflater&) = delete;
  Inflater& operator=(const Inflater&) = delete;
  ~Inflater() { inflateEnd(&stream_); }

  /// Nothing unless the stream is whole, gives exactly `size` bytes, and ends where its input does.
  std::optional<std::string> all(std::uint64_t size) {
    std::string out;
    std::array<Bytef, kStep> step{};
    int state = Z_OK;
    while (state == Z_OK && out.size() <= size) {
      stream_.next_out = step.data();
      stream_.avail_out = kStep;
      state = inflate(&stream_, Z_NO_FLUSH);
      out.append(step.begin(), step.end() - static_cast<std::ptrdiff_t>(stream_.avail_out));
    }
    if (state != Z_STREAM_END || stream_.avail_in != 0 || out.size() != size) return std::nullopt;
    return out;
  }

 private:
  z_stream stream_{};
};

}  // namespace

std::uint32_t zip_checksum(std::string_view bytes) {
  return static_cast<std::uint32_t>(crc32_z(crc32_z(0, nullptr, 0), zlib_bytes(bytes), bytes.size()));
}

std::optional<std::string> zip_bytes(std::string_view archive, const ZipEntry& entry) {
  const std::string_view packed =
      archive.substr(entry.bytes_at, entry.packed_size);
  std::optional<std::string> out;
  if (entry.method == kStored) {
    if (entry.size == entry.packed_size) out = std::string(packed);
  } else if (entry.size <= entry.packed_size * kMostGrowth) {
    out = Inflater(packed).all(entry.size);
  }
  if (out && zip_checksum(*out) != entry.checksum) return std::nullopt;
  return out;
}

}  // namespace fettle
