#include "entry/figure_unit.h"

#include <string>

#include "entry/characters.h"

namespace fettle {
namespace {

bool is_times_sign(char32_t c) { return c == U'×' || c == U'x' || c == U'X' || c == U'*'; }
bool begins_with_figure(std::string_view name) {
  return !name.empty() && ((name.front() >= '0' && name.front() <= '9') || name.front() == '.');
}

/// The unit named `name` at the end of the text, if what stands before it is a number or a number and a times sign.
std::optional<FigureUnit> ends_with(const std::vector<char32_t>& points, std::size_t from, std::size_t to, const Unit& unit,
                                    std::string_view name) {
  const std::size_t length = code_points(name).size();
  if (to - from <= length) return std::nullopt;
  const std::size_t start = to - length;
  if (ascii_lower(utf8(points, start, to)) != ascii_lower(name)) return std::nullopt;
  std::size_t end = start;
  while (end > from && points[end - 1] == U' ') --end;
  if (end == from) return std::nullopt;
  if (!is_times_sign(points[end - 1])) {
    const bool counts_it = end < start && (is_digit(points[end - 1]) || is_fraction_sign(points[end - 1]));
    return counts_it ? std::optional<FigureUnit>({&unit, end, start, false}) : std::nullopt;
  }
  --end;
  while (end > from && points[end - 1] == U' ') --end;
  return end > from ? std::optional<FigureUnit>({&unit, end, start, true}) : std::nullopt;
}

}  // namespace

std::optional<FigureUnit> find_figure_unit(const std::vector<char32_t>& points, std::size_t from, std::size_t to) {
  for (const Unit& unit : all_units()) {
    std::vector<std::string_view> names = unit.spellings;
    names.push_back(unit.symbol);
    for (std::string_view name : names) {
      if (!begins_with_figure(name)) continue;
      if (auto found = ends_with(points, from, to, unit, name)) return found;
    }
  }
  return std::nullopt;
}

}  // namespace fettle
