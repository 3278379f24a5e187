#include <cstdint>
#include <optional>

#include "attachment/pixels.h"

namespace fettle {
namespace {

constexpr std::uint32_t kOrientationTag = 0x0112;
constexpr std::uint32_t kShort = 3;  ///< type of a whole number of 16 bits
constexpr std::size_t kEntry = 12;

/// Numbers in the order of bytes that the block's first two letters say.
struct Block {
  std::string_view bytes;
  bool lowest_first;

  [[nodiscard]] std::optional<std::uint32_t> number(std::size_t at, std::size_t width) const {
    if (at > bytes.size() || bytes.size() - at < width) return std::nullopt;
    std::uint32_t out = 0;
    for (std::size_t i = 0; i < width; ++i) {
      const std::size_t each = lowest_first ? at + width - 1 - i : at + i;
      out = (out << 8U) | static_cast<unsigned char>(bytes[each]);
    }
    return out;
  }
};

std::optional<std::uint32_t> find_orientation(const Block& block) {
  const auto directory = block.number(4, 4);
  const auto entries = directory ? block.number(*directory, 2) : std::nullopt;
  if (!entries) return std::nullopt;
  for (std::size_t i = 0; i < *entries; ++i) {
    const std::size_t at = *directory + 2 + i * kEntry;
    const auto tag = block.number(at, 2);
    if (!tag) return std::nullopt;
    if (*tag == kOrientationTag && block.number(at + 2, 2) == kShort && block.number(at + 4, 4) == 1U) return block.number(at + 8, 2);
  }
  return std::nullopt;
}

}  // namespace

Orientation orientation_in(std::string_view exif) {
  using namespace std::string_view_literals;
  if (!exif.starts_with("II*\0"sv) && !exif.starts_with("MM\0*"sv)) return 1;
  const std::uint32_t found = find_orientation({exif, exif.front() == 'I'}).value_or(1);
  return found >= 1 && found <= 8 ? static_cast<Orientation>(found) : 1;
}

}  // namespace fettle
