#include "store_sqlite/raw_record.h"

#include <algorithm>

namespace fettle::sqlite {
namespace {

constexpr unsigned char kIndexInterior = 2;
constexpr unsigned char kIndexLeaf = 10;
constexpr unsigned char kTableLeaf = 13;
constexpr std::size_t kFileHeader = 100;
/// No row of ours that must be rescued is longer; a damaged length must not fill the memory.
constexpr std::uint64_t kLongestPayload = std::uint64_t{64} << 20U;

std::size_t start_of(std::uint32_t number) { return number == 1 ? kFileHeader : 0; }

/// Reads onward through bytes; after a step beyond the end `good` stays false.
struct Cursor {
  std::string_view bytes;
  std::size_t at;
  bool good = true;

  std::uint64_t fixed(std::size_t count) {
    good = good && count <= bytes.size() && at <= bytes.size() - count;
    if (!good) return 0;
    const std::uint64_t out = big_endian(bytes, at, count);
    at += count;
    return out;
  }
  /// One to nine bytes, seven bits in each but the ninth.
  std::uint64_t varint() {
    std::uint64_t out = 0;
    for (int i = 0; i < 8; ++i) {
      const std::uint64_t byte = fixed(1);
      out = out << 7U | (byte & 0x7FU);
      if ((byte & 0x80U) == 0) return out;
    }
    return out << 8U | fixed(1);
  }
};

/// How much of a payload stands in the page itself; the rest goes on overflow pages.
std::uint64_t local_size(std::uint64_t payload, std::uint64_t page_bytes, bool index) {
  const std::uint64_t most = index ? (page_bytes - 12) * 64 / 255 - 23 : page_bytes - 35;
  if (payload <= most) return payload;
  const std::uint64_t least = (page_bytes - 12) * 32 / 255 - 23;
  const std::uint64_t fitting = least + (payload - least) % (page_bytes - 4);
  return fitting <= most ? fitting : least;
}

std::optional<std::string> payload_at(Cursor& cursor, std::uint64_t size, bool index, PageFile& pages) {
  if (size > kLongestPayload) return std::nullopt;
  const std::size_t local = local_size(size, pages.page_bytes(), index);
  if (!cursor.good || local > cursor.bytes.size() - cursor.at) return std::nullopt;
  std::string out(cursor.bytes.substr(cursor.at, local));
  if (local == size) return out;
  cursor.at += local;
  auto next = static_cast<std::uint32_t>(cursor.fixed(4));
  while (cursor.good && out.size() < size) {
    const auto page = pages.page(next);
    if (!page) return std::nullopt;
    out += page->substr(4, size - out.size());
    next = static_cast<std::uint32_t>(big_endian(*page, 0, 4));
  }
  if (out.size() != size) return std::nullopt;
  return out;
}

/// Bytes of a column's value by its serial type.
std::size_t size_of(std::uint64_t serial) {
  constexpr std::size_t kSizes[] = {0, 1, 2, 3, 4, 6, 8, 8, 0, 0, 0, 0};
  return serial < 12 ? kSizes[serial] : (serial - 12) / 2;
}

RawValue value_at(Cursor& body, std::uint64_t serial) {
  if (serial == 8 || serial == 9) return static_cast<std::int64_t>(serial - 8);
  const std::size_t size = size_of(serial);
  if (serial >= 12) {
    if (!body.good || size > body.bytes.size() - body.at) {
      body.good = false;
      return {};
    }
    std::string out(body.bytes.substr(body.at, size));
    body.at += size;
    return out;
  }
  if (size == 0 || serial == 7) {
    (void)body.fixed(size);
    return {};
  }
  std::uint64_t bits = body.fixed(size);
  const auto unused = static_cast<unsigned>(64 - 8 * size);
  return static_cast<std::int64_t>(bits << unused) >> unused;
}

std::optional<RawRecord> record_in(const std::string& payload) {
  Cursor head{payload, 0};
  const std::uint64_t head_size = head.varint();
  if (!head.good || head_size > payload.size()) return std::nullopt;
  Cursor body{payload, head_size};
  RawRecord out;
  while (head.good && body.good && head.at < head_size) out.push_back(value_at(body, head.varint()));
  if (!head.good || !body.good) return std::nullopt;
  return out;
}

std::optional<RawCell> cell_at(const std::string& page, std::size_t at, unsigned char type, PageFile& pages) {
  Cursor cursor{page, at};
  if (type == kIndexInterior) (void)cursor.fixed(4);
  const std::uint64_t size = cursor.varint();
  const std::int64_t number = type == kTableLeaf ? static_cast<std::int64_t>(cursor.varint()) : 0;
  const auto payload = payload_at(cursor, size, type != kTableLeaf, pages);
  if (!payload) return std::nullopt;
  auto record = record_in(*payload);
  if (!record) return std::nullopt;
  return RawCell{number, *std::move(record)};
}

}  // namespace

PageSort sort_of_page(const std::string& page, std::uint32_t number) {
  switch (static_cast<unsigned char>(page[start_of(number)])) {
    case kTableLeaf: return PageSort::rows_of_table;
    case kIndexLeaf:
    case kIndexInterior: return PageSort::entries_of_index;
    default: return PageSort::other;
  }
}

std::vector<RawCell> cells_of(const std::string& page, std::uint32_t number, PageFile& pages) {
  std::vector<RawCell> out;
  const std::size_t start = start_of(number);
  const auto type = static_cast<unsigned char>(page[start]);
  const std::size_t pointers = start + (type == kIndexInterior ? 12 : 8);
  const std::uint64_t count = big_endian(page, start + 3, 2);
  for (std::size_t i = 0; i < count && pointers + 2 * i + 2 <= page.size(); ++i) {
    auto cell = cell_at(page, big_endian(page, pointers + 2 * i, 2), type, pages);
    if (cell) out.push_back(*std::move(cell));
  }
  return out;
}

}  // namespace fettle::sqlite
