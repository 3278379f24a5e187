#include <algorithm>

#include "base/assertion.h"
#include "form/formula.h"
#include "form/open_places.h"

namespace fettle {
namespace {

constexpr auto kCounts = static_cast<double>(Length::kCountsPerMillimetre);

class Builder {
 public:
  Builder(const PartGrid& grid, const std::vector<bool>& entering) : grid_(grid), layout_(grid.layout), entering_(entering) {}

  void items(const Expression& expression, const OpenPlaces& open, std::vector<Formula>& out) {
    switch (expression.operation) {
      case Operation::max:
      case Operation::min:
        for (const OpenPlaces& item : split(open, expression.over)) items(expression.parts[0], item, out);
        return;
      case Operation::at: items(expression.parts[0], narrowed(open, expression, layout_), out); return;
      case Operation::of: items(expression.parts[0], counted_places(layout_, expression.member), out); return;
      case Operation::vector_difference: neighbours(FormulaStep::vector_difference, open, out); return;
      case Operation::neighbour_rule: neighbours(FormulaStep::neighbour_rule, open, out); return;
      case Operation::size:
      case Operation::standard:
      case Operation::nominal:
      case Operation::mean:
      case Operation::range:
      case Operation::difference:
      case Operation::factor:
      case Operation::slope:
      case Operation::ratio:
      case Operation::amplitude:
      case Operation::place:
      case Operation::number:
      case Operation::length:
      case Operation::apart:
      case Operation::cosine:
      case Operation::arccosine:
      case Operation::sum:
      case Operation::product:
      case Operation::quotient:
      case Operation::per_span:
      case Operation::tilt_along:
      case Operation::tilt_across:
      case Operation::twist:
      case Operation::off_plane: break;
    }
    if (const auto root = scalar(expression, open)) out.push_back(finished(*root));
  }

  std::optional<Formula> single(const Expression& expression, const OpenPlaces& open) {
    const auto root = scalar(expression, open);
    return root ? std::optional(finished(*root)) : std::nullopt;
  }

 private:
  using Node = std::optional<FormulaNode>;

  static FormulaNode constant(double value) { return {FormulaStep::constant, 0, value, {}}; }

  [[nodiscard]] Node cell(std::size_t at) const {
    if (!entering_[at]) return std::nullopt;
    return FormulaNode{FormulaStep::cell, at, 0.0, {}};
  }

  Node two(FormulaStep step, const Node& a, const Node& b) const {
    if (!a || !b) return std::nullopt;
    return FormulaNode{step, 0, 0.0, {*a, *b}};
  }

  Node one(FormulaStep step, const Node& a) const {
    if (!a) return std::nullopt;
    return FormulaNode{step, 0, 0.0, {*a}};
  }

  Node apart(const Node& a, const Node& b) const {
    return two(FormulaStep::greatest, two(FormulaStep::difference, a, b), two(FormulaStep::difference, b, a));
  }

  Node scalar(const Expression& expression, const OpenPlaces& open) {
    const auto part = [&](std::size_t k) { return scalar(expression.parts[k], open); };
    switch (expression.operation) {
      case Operation::size:
        FETTLE_ASSERT(open.stations.size() == 1 && open.directions.size() == 1, "a size with several places open");
        return cell(layout_.cell(open.stations.front(), open.directions.front()));
      case Operation::place: {
        const auto station = layout_.find_station(expression.member);
        if (!station) return std::nullopt;
        return cell(layout_.cell(*station, counted_places(layout_).directions.front()));
      }
      case Operation::standard: return constant(grid_.given.standard.value().millimetres());
      case Operation::nominal: return constant(grid_.given.nominal.value().millimetres());
      case Operation::number: return constant(expression.number.to_double());
      case Operation::length: return constant(expression.number.to_double() / kCounts);
      case Operation::factor: return two(FormulaStep::product, constant(expression.number.to_double()), part(0));
      case Operation::sum: return two(FormulaStep::sum, part(0), part(1));
      case Operation::difference: return two(FormulaStep::difference, part(0), part(1));
      case Operation::apart: return apart(part(0), part(1));
      case Operation::cosine: return one(FormulaStep::cosine, part(0));
      case Operation::arccosine: return one(FormulaStep::arccosine, part(0));
      case Operation::product: return two(FormulaStep::product, part(0), part(1));
      case Operation::quotient: return two(FormulaStep::quotient, part(0), part(1));
      case Operation::at: return scalar(expression.parts[0], narrowed(open, expression, layout_));
      case Operation::of: return scalar(expression.parts[0], counted_places(layout_, expression.member));
      case Operation::mean: return mean(expression, open);
      case Operation::max: return chosen(FormulaStep::greatest, expression, open);
      case Operation::min: return chosen(FormulaStep::least, expression, open);
      case Operation::range:
      case Operation::slope:
      case Operation::ratio:
      case Operation::amplitude:
      case Operation::vector_difference:
      case Operation::neighbour_rule:
      case Operation::per_span:
      case Operation::tilt_along:
      case Operation::tilt_across:
      case Operation::twist:
      case Operation::off_plane: break;
    }
    FETTLE_ASSERT(false, "no step of a formula");
    return std::nullopt;
  }

  Node chosen(FormulaStep step, const Expression& expression, const OpenPlaces& open) {
    FormulaNode out{step, 0, 0.0, {}};
    for (const OpenPlaces& item : split(open, expression.over)) {
      if (const Node each = scalar(expression.parts[0], item)) out.parts.push_back(*each);
    }
    return out.parts.empty() ? Node() : Node(out);
  }

  Node mean(const Expression& expression, const OpenPlaces& open) {
    Node total;
    double items = 0.0;
    for (const OpenPlaces& item : split(open, expression.over)) {
      const Node each = scalar(expression.parts[0], item);
      if (!each) continue;
      total = total ? two(FormulaStep::sum, total, each) : each;
      items += 1.0;
    }
    return total ? two(FormulaStep::product, constant(1.0 / items), total) : total;
  }

  /// Stations that follow each other, each read as a length and the angle where it is greatest.
  void neighbours(FormulaStep step, const OpenPlaces& open, std::vector<Formula>& out) const {
    const auto length = direction_of(Dimension::length);
    const auto angle = direction_of(Dimension::angle);
    if (!length || !angle) return;
    for (std::size_t k = 0; k + 1 < open.stations.size(); ++k) {
      FormulaNode root{step, 0, 0.0, {}};
      for (const std::size_t station : {open.stations[k], open.stations[k + 1]}) {
        for (const std::size_t direction : {*length, *angle}) {
          if (const Node each = cell(layout_.cell(station, direction))) root.parts.push_back(*each);
        }
      }
      if (root.parts.size() == 4) out.push_back(finished(root));
    }
  }

  [[nodiscard]] std::optional<std::size_t> direction_of(Dimension quantity) const {
    for (std::size_t d = 0; d < layout_.directions.size(); ++d) {
      if (layout_.directions[d].counted && layout_.quantity(d) == quantity) return d;
    }
    return std::nullopt;
  }

  [[nodiscard]] Formula finished(FormulaNode root) const {
    Formula out{std::move(root), {}, {}, {}};
    out.cells = cells_of(out.root);
    const auto in_order = [](std::vector<std::size_t>& list) {
      std::sort(list.begin(), list.end());
      list.erase(std::unique(list.begin(), list.end()), list.end());
    };
    for (const std::size_t each : out.cells) {
      out.per_exact.push_back(layout_.quantity(each) == Dimension::length ? 1.0 / kCounts : 1.0);
      out.where.stations.push_back(each / layout_.directions.size());
      out.where.directions.push_back(each % layout_.directions.size());
    }
    in_order(out.where.stations);
    in_order(out.where.directions);
    return out;
  }

  const PartGrid& grid_;
  const Layout& layout_;
  const std::vector<bool>& entering_;
};

}  // namespace

std::optional<Formula> formula_of(const Expression& expression, const PartGrid& grid, const std::vector<bool>& entering) {
  return Builder(grid, entering).single(expression, counted_places(grid.layout));
}

std::vector<Formula> formulas_of(const Expression& expression, const PartGrid& grid, const std::vector<bool>& entering) {
  std::vector<Formula> out;
  Builder(grid, entering).items(expression, counted_places(grid.layout), out);
  return out;
}

}  // namespace fettle
