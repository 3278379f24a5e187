#include "attachment/pixels.h"

#include <algorithm>
#include <cstdint>
#include <utility>

#include "base/assertion.h"

namespace fettle {
namespace {

/// How an upright picture is filled: x and y exchanged first, then each turned round.
struct Turn {
  bool exchanged;
  bool x_back;
  bool y_back;
};

Turn turn_of(Orientation orientation) {
  const bool exchanged = orientation >= 5;
  const bool x_back = orientation == 2 || orientation == 3 || orientation == 7 || orientation == 8;
  const bool y_back = orientation == 3 || orientation == 4 || orientation == 6 || orientation == 7;
  return {exchanged, x_back, y_back};
}

/// The part of a length in which old pixel and new pixel overlap, both measured in 1/(old length * new length) of the whole.
struct Shares {
  std::uint64_t from, until;  ///< old pixels [from, until)
  std::uint64_t begin, end;   ///< of the new pixel

  Shares(int index, int now, int before)
      : begin(static_cast<std::uint64_t>(index) * static_cast<std::uint64_t>(before)), end(begin + static_cast<std::uint64_t>(before)) {
    const auto length = static_cast<std::uint64_t>(now);
    from = begin / length;
    until = (end + length - 1) / length;
    step_ = length;
  }
  [[nodiscard]] std::uint64_t of(std::uint64_t old) const { return std::min(end, (old + 1) * step_) - std::max(begin, old * step_); }

 private:
  std::uint64_t step_;
};

/// Sums of one old row over the areas of the new pixels, channel by channel.
void add_row(const unsigned char* old, const std::vector<Shares>& columns, std::size_t step, std::uint64_t weight,
             std::vector<std::uint64_t>& sums) {
  for (std::size_t x = 0; x < columns.size(); ++x) {
    for (std::uint64_t from = columns[x].from; from < columns[x].until; ++from) {
      const std::uint64_t share = columns[x].of(from) * weight;
      for (std::size_t channel = 0; channel < step; ++channel) sums[x * step + channel] += share * old[from * step + channel];
    }
  }
}

int scaled(int length, int longest, int now) {
  const std::int64_t rounded = (std::int64_t{length} * now + longest / 2) / longest;
  return static_cast<int>(std::max<std::int64_t>(1, rounded));
}

}  // namespace

Pixels room_for(int width, int height, std::size_t step) {
  FETTLE_ASSERT(width > 0 && height > 0, std::to_string(width) + " x " + std::to_string(height));
  return {width, height, step, std::vector<unsigned char>(step * static_cast<std::size_t>(width) * static_cast<std::size_t>(height))};
}

Pixels upright(Pixels pixels, Orientation orientation) {
  FETTLE_ASSERT(orientation >= 1 && orientation <= 8, std::to_string(orientation));
  if (orientation == 1) return pixels;
  const Turn turn = turn_of(orientation);
  const auto old_width = static_cast<std::size_t>(pixels.width);
  const auto old_height = static_cast<std::size_t>(pixels.height);
  Pixels out = turn.exchanged ? room_for(pixels.height, pixels.width, pixels.step) : room_for(pixels.width, pixels.height, pixels.step);
  unsigned char* to = out.bytes.data();
  for (std::size_t y = 0; y < static_cast<std::size_t>(out.height); ++y) {
    for (std::size_t x = 0; x < static_cast<std::size_t>(out.width); ++x) {
      const std::size_t along = turn.exchanged ? y : x;
      const std::size_t down = turn.exchanged ? x : y;
      const std::size_t old_x = turn.x_back ? old_width - 1 - along : along;
      const std::size_t old_y = turn.y_back ? old_height - 1 - down : down;
      to = std::copy_n(pixels.bytes.data() + (old_y * old_width + old_x) * pixels.step, pixels.step, to);
    }
  }
  return out;
}

Pixels shrunk(const Pixels& pixels, int longest) {
  const int side = std::max(pixels.width, pixels.height);
  if (side <= longest) return pixels;
  Pixels out = room_for(scaled(pixels.width, side, longest), scaled(pixels.height, side, longest), pixels.step);
  std::vector<Shares> columns;
  for (int x = 0; x < out.width; ++x) columns.emplace_back(x, out.width, pixels.width);
  const std::uint64_t area = static_cast<std::uint64_t>(pixels.width) * static_cast<std::uint64_t>(pixels.height);
  unsigned char* to = out.bytes.data();
  for (int y = 0; y < out.height; ++y) {
    const Shares rows(y, out.height, pixels.height);
    std::vector<std::uint64_t> sums(out.row(), 0);
    for (std::uint64_t row = rows.from; row < rows.until; ++row) {
      add_row(pixels.bytes.data() + row * pixels.row(), columns, pixels.step, rows.of(row), sums);
    }
    to = std::transform(sums.begin(), sums.end(), to, [&](std::uint64_t sum) { return static_cast<unsigned char>((sum + area / 2) / area); });
  }
  return out;
}

}  // namespace fettle
