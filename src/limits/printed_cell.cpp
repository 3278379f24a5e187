#include "limits/printed_cell.h"

#include <algorithm>
#include <array>

#include "entry/characters.h"

namespace fettle {
namespace {

using Points = std::vector<char32_t>;

Points trimmed(Points points) {
  while (!points.empty() && points.front() == U' ') points.erase(points.begin());
  while (!points.empty() && points.back() == U' ') points.pop_back();
  return points;
}

Points part(const Points& points, std::size_t from, std::size_t to) {
  return trimmed(Points(points.begin() + static_cast<std::ptrdiff_t>(from), points.begin() + static_cast<std::ptrdiff_t>(to)));
}

std::string text_of(const Points& points) { return utf8(points, 0, points.size()); }

/// A raised figure behind a letter belongs to the unit: cm³.
bool ends_in_footnote(const Points& points) {
  constexpr std::u32string_view kMarks = U"*†‡§#";
  constexpr std::u32string_view kRaised = U"¹²³⁴⁵⁶⁷⁸⁹";
  if (points.empty()) return false;
  if (kMarks.find(points.back()) != std::u32string_view::npos) return true;
  const bool behind_figure = points.size() > 1 && (is_digit(points[points.size() - 2]) || points[points.size() - 2] == U' ' || kRaised.find(points[points.size() - 2]) != std::u32string_view::npos);
  return behind_figure && kRaised.find(points.back()) != std::u32string_view::npos;
}

/// "1.250 1)" and "1.250 a)": a mark with a bracket that was never opened. The blank before it is needed: "1.2501)" is no figure anybody can tell.
std::size_t bracket_mark(const Points& points) {
  if (points.size() < 4 || points.back() != U')') return 0;
  if (std::find(points.begin(), points.end(), U'(') != points.end()) return 0;
  const std::size_t at = points.size() - 2;
  const bool letter = (points[at] >= U'a' && points[at] <= U'f') || is_digit(points[at]);
  return letter && points[at - 1] == U' ' ? 2 : 0;
}

std::string take_marks(Points& points) {
  Points marks;
  while (true) {
    points = trimmed(std::move(points));
    const std::size_t bracketed = bracket_mark(points);
    const std::size_t length = bracketed > 0 ? bracketed : ends_in_footnote(points) ? 1 : 0;
    if (length == 0) return text_of(marks);
    marks.insert(marks.begin(), points.end() - static_cast<std::ptrdiff_t>(length), points.end());
    points.resize(points.size() - length);
  }
}

/// "9.014 : 1" is a figure without a unit.
bool take_to_one(Points& points) {
  const std::size_t size = points.size();
  if (size < 3 || points[size - 1] != U'1') return false;
  std::size_t at = size - 2;
  while (at > 0 && points[at] == U' ') --at;
  if (points[at] != U':') return false;
  points.resize(at);
  points = trimmed(std::move(points));
  return true;
}

bool word_at(const Points& points, std::size_t at, std::u32string_view word) {
  return stands_at(points, at, Points(word.begin(), word.end()));
}

/// Where a range is divided, and how wide that is.
struct Division {
  std::size_t at;
  std::size_t size;
  bool plus_minus;
};

/// A hyphen of "2-1/32" joins a mixed number; one at the front, or behind another sign, is a sign.
bool divides(const Points& points, std::size_t at) {
  if (at == 0 || at + 1 >= points.size()) return false;
  std::size_t before = at;
  while (before > 0 && points[before - 1] == U' ') --before;
  if (before == 0 || points[before - 1] == U'-' || points[before - 1] == U'+') return false;
  std::size_t next = at + 1;
  std::size_t digits = 0;
  while (next < points.size() && is_digit(points[next])) ++next, ++digits;
  const bool fraction = digits > 0 && next < points.size() && points[next] == U'/' && is_digit(points[at - 1]);
  return !fraction;
}

/// What divides a range at this place, or nothing.
std::optional<Division> division_at(const Points& points, std::size_t at) {
  if (points[at] == U'±') return Division{at, 1, true};
  if (word_at(points, at, U"+/-")) return Division{at, 3, true};
  if (word_at(points, at, U"+-")) return Division{at, 2, true};
  if (points[at] == U'…' || points[at] == U'—') return Division{at, 1, false};
  if (word_at(points, at, U"...")) return Division{at, 3, false};
  if (word_at(points, at, U"..")) return Division{at, 2, false};
  if (word_at(points, at, U" to ")) return Division{at, 4, false};
  if (word_at(points, at, U" bis ")) return Division{at, 5, false};
  if (points[at] == U'-' && divides(points, at)) return Division{at, 1, false};
  return std::nullopt;
}

std::vector<Division> divisions(const Points& points) {
  std::vector<Division> out;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const auto division = division_at(points, i);
    if (!division) continue;
    out.push_back(*division);
    // What follows may be a sign: "-.0005 to -.0001".
    i += division->size - 1;
    while (i + 1 < points.size() && points[i + 1] == U' ') ++i;
    if (i + 1 < points.size() && points[i + 1] == U'-') ++i;
  }
  return out;
}

struct OpenWord {
  std::u32string_view word;
  bool from;  ///< what follows is the lower end
};
/// Behind the figure: "0.03 max".
constexpr std::array<OpenWord, 4> kOpenEnds{{{U" max", false}, {U" max.", false}, {U" min", true}, {U" min.", true}}};
constexpr std::array<OpenWord, 12> kOpenWords{{{U"<", false}, {U"≤", false}, {U"up to ", false}, {U"max ", false}, {U"max. ", false}, {U"bis ", false},
                                              {U">", true}, {U"≥", true}, {U"over ", true}, {U"min ", true}, {U"min. ", true}, {U"über ", true}}};

/// What a job can state once, a table of a book cannot: there the other figures say it, or the cell itself.
// raises: limits.cell_ambiguous limits.cell_thousands limits.cell_trade_word
Problem of_a_cell(Problem problem) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 4> kCodes{{{"entry.ambiguous", "limits.cell_ambiguous"},
                                                                               {"entry.thousands_by_mark", "limits.cell_thousands"},
                                                                               {"entry.trade_tenths", "limits.cell_trade_word"},
                                                                               {"entry.trade_hundredths", "limits.cell_trade_word"}}};
  for (const auto& [of_a_job, of_a_cell] : kCodes) {
    if (problem.code == of_a_job) problem.code = of_a_cell;
  }
  return problem;
}

class CellReader {
 public:
  CellReader(const CellContext& context, const Place& place) : context_(context), place_(place) {}

  Result<PrintedCell> read(std::string_view text) {
    Points points;
    for (const char32_t each : code_points(text)) points.push_back(plain_form(each));
    PrintedCell out;
    out.marks = take_marks(points);
    const bool ratio = take_to_one(points);
    const auto open = std::find(points.begin(), points.end(), U'(');
    if (open == points.end()) {
      read_side(points, ratio ? UnitId::piece : unit(0), out.range);
    } else {
      read_brackets(points, static_cast<std::size_t>(open - points.begin()), out.range);
    }
    if (!problems_.empty()) return std::move(problems_);
    return out;
  }

 private:
  [[nodiscard]] std::optional<UnitId> unit(std::size_t at) const { return at < context_.units.size() ? std::optional(context_.units[at]) : std::nullopt; }
  void add(const char* code, const Points& points) { problems_.push_back({code, place_, {verbatim("text", text_of(points))}}); }

  // raises: limits.cell_brackets
  void read_brackets(const Points& points, std::size_t open, PrintedRange& out) {
    const auto close = std::find(points.begin(), points.end(), U')');
    const bool whole = close != points.end() && close + 1 == points.end() && open > 0;
    if (!whole || std::count(points.begin(), points.end(), U'(') != 1) return add("limits.cell_brackets", points);
    read_side(part(points, 0, open), unit(0), out);
    read_side(part(points, open + 1, points.size() - 1), unit(1), out);
  }

  void read_side(const Points& points, std::optional<UnitId> column, PrintedRange& out) {
    for (const OpenWord& each : kOpenWords) {
      if (!word_at(points, 0, each.word)) continue;
      put(quantity(part(points, each.word.size(), points.size()), column), each.from ? &out.from : nullptr, each.from ? nullptr : &out.to);
      return;
    }
    for (const OpenWord& each : kOpenEnds) {
      const std::size_t size = each.word.size();
      if (points.size() <= size || !word_at(points, points.size() - size, each.word)) continue;
      put(quantity(part(points, 0, points.size() - size), column), each.from ? &out.from : nullptr, each.from ? nullptr : &out.to);
      return;
    }
    const std::vector<Division> all = divisions(points);
    if (all.size() > 1) return add("limits.cell_range", points);
    if (all.empty()) {
      put(quantity(points, column), &out.from, &out.to);
      return;
    }
    read_two(points, all.front(), column, out);
  }

  /// "1.0-1.2 mm": the unit behind the last figure is that of both.
  void read_two(const Points& points, const Division& division, std::optional<UnitId> column, PrintedRange& out) {
    const auto second = quantity(part(points, division.at + division.size, points.size()), column);
    if (!second) return;
    const Points front = part(points, 0, division.at);
    const bool has_letters = std::any_of(front.begin(), front.end(), [](char32_t each) { return each != U' ' && each != U'.' && each != U',' && each != U'-' && each != U'+' && each != U'/' && !is_digit(each); });
    const auto first = quantity(front, has_letters ? column : std::optional(second->quantity.unit));
    if (!first) return;
    if (!division.plus_minus) {
      put(first, &out.from, nullptr);
      put(second, nullptr, &out.to);
      return;
    }
    put(moved(*first, *second, -second->quantity.value), &out.from, nullptr);
    put(moved(*first, *second, second->quantity.value), nullptr, &out.to);
  }

  static TypedQuantity moved(TypedQuantity figure, const TypedQuantity& width, const Ratio& by) {
    if (is_typed_fraction(width)) figure.text = width.text;
    figure.quantity.value = figure.quantity.value + by;
    figure.decimals = std::max(figure.decimals, width.decimals);
    figure.text = digits_of(figure) + " " + std::string(unit_definition(figure.quantity.unit).symbol);
    return figure;
  }

  // raises: entry.side_not_wanted
  std::optional<TypedQuantity> quantity(const Points& points, std::optional<UnitId> column) {
    Problems found;
    auto out = take(read_quantity(text_of(points), {column, {}, context_.decimal_mark, {}, false, {}}, place_), found);
    if (out && out->side) found.push_back({"entry.side_not_wanted", place_, {verbatim("text", text_of(points))}});
    for (Problem& each : found) problems_.push_back(of_a_cell(std::move(each)));
    return found.empty() ? out : std::nullopt;
  }

  void put(const std::optional<TypedQuantity>& figure, Printed* from, Printed* to) {
    if (!figure) return;
    const UnitFamily family = family_of(figure->quantity.unit);
    for (Printed* each : {from, to}) {
      if (each == nullptr) continue;
      if (each->in(family)) return add("limits.cell_two_metric", code_points(figure->text));
      each->in(family) = figure;
    }
  }

  const CellContext& context_;
  const Place& place_;
  Problems problems_;
};

}  // namespace

Result<PrintedCell> read_printed(std::string_view text, const CellContext& context, const Place& place) { return CellReader(context, place).read(text); }

}  // namespace fettle
