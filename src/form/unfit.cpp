#include "form/unfit.h"

#include <algorithm>

#include "catalogue/catalogue.h"
#include "catalogue/figure_style.h"

namespace fettle {
namespace {

using Sizes = std::vector<std::optional<Ratio>>;

std::string with_unit(const Ratio& exact, const FigureStyle& style) { return shown(exact, style) + " " + style.unit; }

/// Lengths in both units: which one the job shows is not known here.
Argument read_as(const Ratio& exact, Dimension quantity) {
  const std::string metric = with_unit(exact, style_read(quantity, UnitId::millimetre));
  if (quantity != Dimension::length) return figures("value", metric);
  return figures("value", metric + " = " + with_unit(exact, style_read(quantity, UnitId::inch)));
}

Message place_read(const Layout& layout, std::size_t cell, const Ratio& size) {
  const Station& station = layout.stations[cell / layout.directions.size()];
  const Direction& direction = layout.directions[cell % layout.directions.size()];
  std::vector<Argument> named = {station_argument("station", station.id), direction_argument("direction", direction.id),
                                 read_as(size, layout.quantity(cell))};
  if (!station.member.empty()) {
    named.push_back(word("member", "member." + station.member));
    return {"form.place_of_member_read", std::move(named)};
  }
  return {layout.directions.size() == 1 ? "form.station_read" : "form.place_read", std::move(named)};
}

std::string_view why_word(FormulaTrouble::Sort sort) {
  switch (sort) {
    case FormulaTrouble::Sort::no_triangle: return "unfit.no-triangle";
    case FormulaTrouble::Sort::divided_by_nothing: return "unfit.divided-by-nothing";
    case FormulaTrouble::Sort::too_large: return "unfit.too-large";
  }
  return "unfit.too-large";
}

/// The definition's own sentence with its lengths; nothing where one of them cannot be said either.
std::optional<Message> own_words(const Unfit& unfit, const PartGrid& grid, const Sizes& sizes) {
  std::vector<bool> there;
  for (const auto& each : sizes) there.push_back(each.has_value());
  Message out{"unfit." + unfit.say, {}};
  for (const Unfit::Named& each : unfit.lengths) {
    const auto formula = formula_of(each.of, grid, there);
    if (!formula) return std::nullopt;
    const auto value = formula_value(*formula, formula_inputs(*formula, sizes));
    if (!value) return std::nullopt;
    const auto in = [&](UnitId unit) {
      const FigureStyle style = style_read(Dimension::length, unit);
      return shown(*value, style) + " " + style.unit;
    };
    out.arguments.push_back(figures(each.name, in(UnitId::millimetre) + " = " + in(UnitId::inch)));
  }
  return out;
}

}  // namespace

std::vector<double> formula_inputs(const Formula& formula, const Sizes& sizes) {
  std::vector<double> values(sizes.size(), 0.0);
  for (std::size_t k = 0; k < formula.cells.size(); ++k) {
    values[formula.cells[k]] = sizes[formula.cells[k]].value().to_double() * formula.per_exact[k];
  }
  return values;
}

std::vector<Argument> unfit_arguments(const Definition& definition, const PartGrid& grid, FormulaTrouble::Sort sort,
                                      const std::vector<std::size_t>& cells, const Sizes& sizes) {
  std::optional<Message> why;
  if (definition.unfit && sort != FormulaTrouble::Sort::too_large) why = own_words(*definition.unfit, grid, sizes);
  std::vector<Message> read;
  for (const std::size_t cell : cells) read.push_back(place_read(grid.layout, cell, sizes[cell].value()));
  return {word("definition", "definition." + definition.id), list("why", {why.value_or(Message{std::string(why_word(sort)), {}})}),
          list("read", std::move(read))};
}

Problems unfit_problems(const Definition& definition, const PartGrid& grid, const Expansion& expansion, const Sizes& sizes) {
  Problems out;
  for (const Formula& formula : expansion.formulas) {
    const auto trouble = formula_trouble(formula, formula_inputs(formula, sizes));
    if (!trouble) continue;
    Problem problem{"form.no_figure", {}, unfit_arguments(definition, grid, trouble->sort, trouble->cells, sizes)};
    if (std::find(out.begin(), out.end(), problem) == out.end()) out.push_back(std::move(problem));
  }
  return out;
}

}  // namespace fettle
