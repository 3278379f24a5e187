#pragma once

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>
#include <utility>

#include "attachment/pixels.h"
#include "base/assertion.h"

/// Pictures and what cameras write into them, made by hand for the tests of this room.
namespace fettle::made {

using Colour = std::array<unsigned char, 3>;
/// Of the four quarters: top left, top right, bottom left, bottom right.
using Quarters = std::array<Colour, 4>;
inline constexpr Quarters kQuarters = {Colour{200, 30, 30}, Colour{30, 180, 40}, Colour{40, 50, 190}, Colour{230, 220, 60}};

inline Pixels quarters(int width, int height, const Quarters& colours) {
  Pixels out = room_for(width, height, 3);
  for (std::size_t i = 0; i < out.bytes.size(); ++i) {
    const auto pixel = static_cast<int>(i / 3);
    const std::size_t right = pixel % width >= width / 2 ? 1 : 0;
    const std::size_t below = pixel / width >= height / 2 ? 2 : 0;
    out.bytes[i] = colours.at(right + below).at(i % 3);
  }
  return out;
}

/// The colours in the middles of the four quarters.
inline Quarters middles(const Pixels& pixels) {
  Quarters out{};
  for (std::size_t i = 0; i < out.size(); ++i) {
    const std::size_t x = static_cast<std::size_t>(pixels.width) * (i % 2 == 0 ? 1 : 3) / 4;
    const std::size_t y = static_cast<std::size_t>(pixels.height) * (i < 2 ? 1 : 3) / 4;
    for (std::size_t c = 0; c < 3; ++c) out.at(i).at(c) = pixels.bytes.at((y * static_cast<std::size_t>(pixels.width) + x) * 3 + c);
  }
  return out;
}

/// The largest difference of any channel of any quarter.
inline int apart(const Quarters& one, const Quarters& other) {
  int most = 0;
  for (std::size_t i = 0; i < one.size(); ++i) {
    for (std::size_t c = 0; c < 3; ++c) most = std::max(most, std::abs(int{one.at(i).at(c)} - int{other.at(i).at(c)}));
  }
  return most;
}

/// What a person sees of kQuarters when a camera marked the picture so, by the table of EXIF 2.3, tag 0112.
inline Quarters seen(Orientation orientation) {
  const auto& [a, b, c, d] = kQuarters;
  switch (orientation) {
    case 2: return {b, a, d, c};
    case 3: return {d, c, b, a};
    case 4: return {c, d, a, b};
    case 5: return {a, c, b, d};
    case 6: return {c, a, d, b};
    case 7: return {d, b, c, a};
    case 8: return {b, d, a, c};
    default: return kQuarters;
  }
}

inline std::string number(std::uint32_t value, std::size_t width, bool lowest_first) {
  std::string out;
  for (std::size_t i = 0; i < width; ++i) {
    const std::size_t shift = 8 * (lowest_first ? i : width - 1 - i);
    out += static_cast<char>(static_cast<unsigned char>((value >> shift) & 0xFFU));
  }
  return out;
}

inline constexpr std::string_view kSecret = "SECRET 47 12 N";

/// A TIFF block whose first directory holds the orientation and points to a directory of the place, which holds kSecret.
inline std::string exif(std::uint32_t orientation, bool lowest_first) {
  const auto put = [&](std::uint32_t value, std::size_t width) { return number(value, width, lowest_first); };
  const auto size = static_cast<std::uint32_t>(kSecret.size());
  std::string out = lowest_first ? "II" : "MM";
  out += put(42, 2) + put(8, 4) + put(2, 2);
  out += put(0x0112, 2) + put(3, 2) + put(1, 4) + put(orientation, 2) + put(0, 2);
  out += put(0x8825, 2) + put(4, 2) + put(1, 4) + put(38, 4) + put(0, 4);
  out += put(1, 2) + put(0x001B, 2) + put(2, 2) + put(size, 4) + put(56, 4) + put(0, 4);
  return out + std::string(kSecret);
}

/// Put in right behind the two bytes that begin every JPEG.
inline std::string with_segment(std::string jpeg, unsigned char marker, const std::string& content) {
  const auto size = static_cast<std::uint32_t>(content.size() + 2);
  return jpeg.insert(2, std::string("\xFF") + static_cast<char>(marker) + number(size, 2, false) + content);
}

inline std::string with_orientation(std::string jpeg, std::uint32_t orientation, bool lowest_first) {
  return with_segment(std::move(jpeg), 0xE1, std::string("Exif\0\0", 6) + exif(orientation, lowest_first));
}

/// CRC-32 bit by bit, as the annex of the PNG standard gives it.
inline std::uint32_t checksum(std::string_view bytes) {
  std::uint32_t out = 0xFFFFFFFF;
  for (const char each : bytes) {
    out ^= static_cast<unsigned char>(each);
    for (int bit = 0; bit < 8; ++bit) out = (out & 1U) != 0 ? 0xEDB88320U ^ (out >> 1U) : out >> 1U;
  }
  return ~out;
}

inline std::string chunk(std::string_view name, std::string_view content) {
  const std::string body = std::string(name) + std::string(content);
  return number(static_cast<std::uint32_t>(content.size()), 4, false) + body + number(checksum(body), 4, false);
}

/// Put in right behind the header of a PNG.
inline std::string with_chunk(std::string png, std::string_view name, std::string_view content) {
  constexpr std::size_t kBehindHeader = 33;
  return png.insert(kBehindHeader, chunk(name, content));
}

/// The same PNG whose header says another size.
inline std::string with_png_size(std::string png, std::uint32_t width, std::uint32_t height) {
  const std::string header = number(width, 4, false) + number(height, 4, false) + png.substr(24, 5);
  return png.replace(8, 25, chunk("IHDR", header));
}

/// The same JPEG whose frame header says another size.
inline std::string with_jpeg_size(std::string jpeg, std::uint32_t width, std::uint32_t height) {
  const std::size_t frame = jpeg.find("\xFF\xC0");
  FETTLE_ASSERT(frame != std::string::npos, "a JPEG in sequence");
  return jpeg.replace(frame + 5, 4, number(height, 2, false) + number(width, 2, false));
}

}  // namespace fettle::made
