#include "limits/thumb_limits.h"

#include <algorithm>

#include "units/exact_decimal.h"

namespace fettle {
namespace {

constexpr std::size_t kMostDigits = 15;  ///< of a bound as text; a person would round what is longer

/// π to 18 figures: at 500 mm that is exact to far below 0.1 nm.
Ratio pi() { return Ratio::of(Int128{3'141'592'653'589'793'238}, Int128{1'000'000'000'000'000'000}); }

/// As a person would have typed it.
TypedQuantity typed(const Quantity& quantity, const std::string& digits) {
  const Unit& unit = unit_definition(quantity.unit);
  const std::string symbol = unit.dimension == Dimension::count ? std::string() : " " + std::string(unit.symbol);
  return read_quantity(digits + symbol, {quantity.unit, unit.dimension, DecimalMark::point, {}, false, {}}, {}).value();
}

TypedQuantity typed(const Quantity& quantity) {
  const auto digits = exact_decimal(quantity.value);
  const bool plain = digits && digits->size() <= kMostDigits;
  if (quantity.dimension() != Dimension::length || (plain && exact_length(quantity))) return typed(quantity, digits.value());
  const Quantity nearest{quantity.in_base().rounded() / unit_definition(UnitId::millimetre).factor, UnitId::millimetre};
  return typed(nearest, exact_decimal(nearest.value).value());
}

Quantity times(const Quantity& size, const Ratio& factor) { return {size.value * factor, size.unit}; }

/// In the unit of the first.
Quantity sum(const Quantity& a, const Quantity& b) {
  const Unit& unit = unit_definition(a.unit);
  return {(a.in_base() + b.in_base() - unit.offset) / unit.factor, a.unit};
}

bool in_band(const ThumbRule& rule, const Quantity& size) {
  const Ratio counts = size.in_base();
  return (!rule.over || counts > rule.over->ratio()) && (!rule.up_to || counts <= rule.up_to->ratio());
}

bool has_band(const ThumbRule& rule) { return rule.over || rule.up_to; }

Quantity reckoned(const ThumbRule& rule, const ThumbSizes& sizes) {
  switch (rule.reckoning) {
    case ThumbReckoning::factor: return times(sizes.of(*rule.of)->quantity, rule.factor);
    case ThumbReckoning::pi: return times(sizes.of(*rule.of)->quantity, pi());
    case ThumbReckoning::added: return sum(sizes.of(*rule.of)->quantity, *rule.figure);
    case ThumbReckoning::slope:
    case ThumbReckoning::fixed: return *rule.figure;
  }
  return *rule.figure;
}

}  // namespace

const std::optional<TypedQuantity>& ThumbSizes::of(ThumbSize size) const {
  switch (size) {
    case ThumbSize::diameter: return diameter;
    case ThumbSize::length: return length;
    case ThumbSize::radius: return radius;
    case ThumbSize::growth: return growth;
    case ThumbSize::new_size: return new_size;
  }
  return diameter;
}

std::optional<ThumbSize> thumb_size_missing(const ThumbRule& rule, const ThumbSizes& sizes) {
  if (rule.of && !sizes.of(*rule.of)) return rule.of;
  if (rule.standard && !sizes.of(*rule.standard)) return rule.standard;
  return std::nullopt;
}

std::optional<ThumbFigure> thumb_figure(const ThumbRule& rule, const ThumbSizes& sizes) {
  if (thumb_size_missing(rule, sizes)) return std::nullopt;
  if (has_band(rule) && !in_band(rule, sizes.of(*rule.of)->quantity)) return std::nullopt;
  return ThumbFigure{typed(reckoned(rule, sizes)), rule.per ? std::optional(typed(*rule.per)) : std::nullopt,
                     rule.standard ? sizes.of(*rule.standard) : std::nullopt};
}

Problems thumb_problems(const ThumbSizes& sizes) {
  Problems out;
  for (const ThumbSize each : {ThumbSize::diameter, ThumbSize::length, ThumbSize::radius, ThumbSize::growth, ThumbSize::new_size}) {
    const auto& size = sizes.of(each);
    if (!size || size->quantity.in_base().sign() > 0) continue;
    out.push_back(Problem{"limits.thumb_size_not_positive", size->place, {verbatim("text", size->text)}});
  }
  return out;
}

std::vector<Limit> thumb_limits(std::string_view kind, std::string_view definition, const ThumbSizes& sizes) {
  std::vector<Limit> out;
  for (const ThumbRule* rule : thumb_rules_about(kind)) {
    if (!rule->side || rule->definition != definition) continue;
    const auto figure = thumb_figure(*rule, sizes);
    if (!figure) continue;
    out.push_back({"thumb-" + rule->id, std::string(kind), std::string(definition), rule->role, *rule->side, figure->bound, figure->per,
                   figure->standard, {rule->origin, {}, {}, {}, true, false}});
  }
  return out;
}

}  // namespace fettle
