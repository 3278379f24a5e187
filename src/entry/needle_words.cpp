#include "entry/needle_words.h"

#include <array>
#include <string_view>
#include <utility>

#include "entry/characters.h"

namespace fettle {
namespace {

/// Longest first, so that "acw" is not read as "a" and "cw".
constexpr std::array<std::pair<std::string_view, NeedleSide>, 16> kWords = {{
    {"gegen den uhrzeigersinn", NeedleSide::anticlockwise},
    {"counter-clockwise", NeedleSide::anticlockwise},
    {"counter clockwise", NeedleSide::anticlockwise},
    {"im uhrzeigersinn", NeedleSide::clockwise},
    {"counterclockwise", NeedleSide::anticlockwise},
    {"anti-clockwise", NeedleSide::anticlockwise},
    {"anticlockwise", NeedleSide::anticlockwise},
    {"rechtsherum", NeedleSide::clockwise},
    {"linksherum", NeedleSide::anticlockwise},
    {"clockwise", NeedleSide::clockwise},
    {"ccw", NeedleSide::anticlockwise},
    {"acw", NeedleSide::anticlockwise},
    {"cw", NeedleSide::clockwise},
    {"↻", NeedleSide::clockwise},
    {"↺", NeedleSide::anticlockwise},
    {"⟳", NeedleSide::clockwise},
}};

bool is_letter(char32_t c) { return (c >= U'a' && c <= U'z') || (c >= U'A' && c <= U'Z') || (c > 0x7F && c != U'µ' && c < 0x2000); }

}  // namespace

TakenSide take_needle_side(const std::vector<char32_t>& points, std::size_t& from, std::size_t& to) {
  TakenSide taken{std::nullopt, false};
  const auto accept = [&](NeedleSide side) {
    taken.conflict = taken.conflict || (taken.side && *taken.side != side);
    taken.side = side;
  };
  for (const auto& [word, side] : kWords) {
    const std::size_t length = code_points(word).size();
    if (to - from < length) continue;
    const bool free_before = to - from == length || !is_letter(points[to - length - 1]) || !is_letter(points[to - 1]);
    if (free_before && ascii_lower(utf8(points, to - length, to)) == word) {
      to -= length;
      accept(side);
      break;
    }
  }
  while (to > from && points[to - 1] == U' ') --to;
  for (const auto& [word, side] : kWords) {
    const std::size_t length = code_points(word).size();
    if (to - from <= length) continue;
    const bool free_behind = !is_letter(points[from + length]) || !is_letter(points[from]);
    if (free_behind && ascii_lower(utf8(points, from, from + length)) == word) {
      from += length;
      accept(side);
      break;
    }
  }
  while (from < to && points[from] == U' ') ++from;
  return taken;
}

}  // namespace fettle
