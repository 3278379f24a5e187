#include "entry/needle_words.h"

#include <array>
#include <string_view>
#include <utility>

#include "entry/characters.h"

namespace fettle {
namespace {

/// Longest first, so that "acw" is not read as "a" and "cw".
constexpr std::array<std::pair<std::string_view, NeedleSide>, 20> kWords = {{
    {"gegen den uhrzeigersinn", NeedleSide::anticlockwise},
    {"counter-clockwise", NeedleSide::anticlockwise},
    {"counter clockwise", NeedleSide::anticlockwise},
    {"im uhrzeigersinn", NeedleSide::clockwise},
    {"counterclockwise", NeedleSide::anticlockwise},
    {"anti-clockwise", NeedleSide::anticlockwise},
    {"anti clockwise", NeedleSide::anticlockwise},
    {"anticlockwise", NeedleSide::anticlockwise},
    {"rechts herum", NeedleSide::clockwise},
    {"rechtsherum", NeedleSide::clockwise},
    {"links herum", NeedleSide::anticlockwise},
    {"linksherum", NeedleSide::anticlockwise},
    {"clockwise", NeedleSide::clockwise},
    {"ccw", NeedleSide::anticlockwise},
    {"acw", NeedleSide::anticlockwise},
    {"cw", NeedleSide::clockwise},
    {"↻", NeedleSide::clockwise},
    {"↺", NeedleSide::anticlockwise},
    {"⟳", NeedleSide::clockwise},
    {"⟲", NeedleSide::anticlockwise},
}};

bool is_letter(char32_t c) { return (c >= U'a' && c <= U'z') || (c >= U'A' && c <= U'Z') || (c > 0x7F && c != U'µ' && c < 0x2000); }

struct NeedleWord {
  std::vector<char32_t> points;
  NeedleSide side;
};

/// Made once: every reading of a dial is compared with all of them.
const std::vector<NeedleWord>& needle_words() {
  static const std::vector<NeedleWord> kMade = [] {
    std::vector<NeedleWord> made;
    for (const auto& [word, side] : kWords) made.push_back({code_points(word), side});
    return made;
  }();
  return kMade;
}

/// The side that the text ends with; moves `to` before it.
std::optional<NeedleSide> take_last(const std::vector<char32_t>& points, std::size_t from, std::size_t& to) {
  for (const auto& [word, side] : needle_words()) {
    const std::size_t length = word.size();
    if (to - from < length) continue;
    const std::size_t start = to - length;
    const bool inside_a_word = start > from && is_letter(points[start - 1]) && is_letter(points[start]);
    if (inside_a_word || !stands_at(points, start, word)) continue;
    to = start;
    while (to > from && points[to - 1] == U' ') --to;
    return side;
  }
  return std::nullopt;
}

/// The side that the text begins with; moves `from` behind it.
std::optional<NeedleSide> take_first(const std::vector<char32_t>& points, std::size_t& from, std::size_t to) {
  for (const auto& [word, side] : needle_words()) {
    const std::size_t length = word.size();
    if (to - from < length) continue;
    const std::size_t end = from + length;
    const bool inside_a_word = end < to && is_letter(points[end]) && is_letter(points[end - 1]);
    if (inside_a_word || !stands_at(points, from, word)) continue;
    from = end;
    while (from < to && points[from] == U' ') ++from;
    return side;
  }
  return std::nullopt;
}

}  // namespace

TakenSide take_needle_side(const std::vector<char32_t>& points, std::size_t& from, std::size_t& to) {
  TakenSide taken{std::nullopt, false};
  const auto accept = [&](NeedleSide side) {
    taken.conflict = taken.conflict || (taken.side && *taken.side != side);
    taken.side = side;
  };
  while (const auto side = take_last(points, from, to)) accept(*side);
  while (const auto side = take_first(points, from, to)) accept(*side);
  return taken;
}

}  // namespace fettle
