#include "entry/figure_unit.h"

#include <string>

#include "entry/characters.h"

namespace fettle {
namespace {

bool is_times_sign(char32_t c) { return c == U'×' || c == U'x' || c == U'X' || c == U'*'; }
bool begins_with_figure(std::string_view name) {
  return !name.empty() && ((name.front() >= '0' && name.front() <= '9') || name.front() == '.');
}

struct FigureName {
  std::vector<char32_t> points;  ///< in lower case
  const Unit* unit;
};

/// The spellings that begin with a figure ("1/100 mm", ".001 in"). Made once.
const std::vector<FigureName>& figure_names() {
  static const std::vector<FigureName> kMade = [] {
    std::vector<FigureName> made;
    for (const Unit& unit : all_units()) {
      std::vector<std::string_view> names = unit.spellings;
      names.push_back(unit.symbol);
      for (std::string_view name : names) {
        if (begins_with_figure(name)) made.push_back({code_points(ascii_lower(name)), &unit});
      }
    }
    return made;
  }();
  return kMade;
}

/// The unit named `name` at the end of the text, if what stands before it is a number or a number and a times sign.
std::optional<FigureUnit> ends_with(const std::vector<char32_t>& points, std::size_t from, std::size_t to,
                                    const FigureName& name) {
  const std::size_t length = name.points.size();
  if (to - from <= length) return std::nullopt;
  const std::size_t start = to - length;
  if (!stands_at(points, start, name.points)) return std::nullopt;
  std::size_t end = start;
  while (end > from && points[end - 1] == U' ') --end;
  if (end == from) return std::nullopt;
  if (!is_times_sign(points[end - 1])) {
    const bool counts_it = end < start && (is_digit(points[end - 1]) || is_fraction_sign(points[end - 1]));
    return counts_it ? std::optional<FigureUnit>({name.unit, end, start, false}) : std::nullopt;
  }
  --end;
  while (end > from && points[end - 1] == U' ') --end;
  return end > from ? std::optional<FigureUnit>({name.unit, end, start, true}) : std::nullopt;
}

}  // namespace

std::optional<FigureUnit> find_figure_unit(const std::vector<char32_t>& points, std::size_t from, std::size_t to) {
  for (const FigureName& name : figure_names()) {
    if (auto found = ends_with(points, from, to, name)) return found;
  }
  return std::nullopt;
}

}  // namespace fettle
