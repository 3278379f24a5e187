#include "server/verdict_figures.h"

#include <algorithm>
#include <cmath>

#include "catalogue/catalogue.h"
#include "units/print.h"

namespace fettle {

ResultDimension VerdictFigures::dimension_of(const Limit& limit) { return catalogue().definition(limit.definition)->dimension; }

FigureStyle VerdictFigures::style_of(const Limit& limit) const { return style_as_typed(dimension_of(limit), unit_, limit.bound.quantity.unit); }

std::string VerdictFigures::with_unit(const std::string& digits, const std::string& unit) const {
  return unit == "1" ? words_.number(digits) : words_.number(digits) + " " + unit;
}

std::string VerdictFigures::exact(const Ratio& value, const Limit& limit) const {
  const FigureStyle style = style_of(limit);
  return with_unit(shown(value, style), style.unit);
}

std::string VerdictFigures::bare(double value, const Limit& limit) const {
  const bool length = dimension_of(limit) == ResultDimension::length;
  return words_.number(length ? print_length(value, unit_) : shown(value, style_of(limit)));
}

std::string VerdictFigures::estimate(double value, const Limit& limit) const {
  const std::string unit = style_of(limit).unit;
  return unit == "1" ? bare(value, limit) : bare(value, limit) + " " + unit;
}

std::string VerdictFigures::moved_by(double value, const Limit& limit) const {
  constexpr double kMicrometres = 1000.0;
  const std::string sign = value > 0.0 ? "+" : "";
  std::string digits = dimension_of(limit) == ResultDimension::length ? words_.number(print_fixed(value * kMicrometres, 1)) + " µm" : estimate(value, limit);
  // A true minus, as print has it.
  if (digits.starts_with('-')) digits.replace(0, 1, "−");
  return sign + digits;
}

std::string VerdictFigures::place(const Where& where, const Layout& layout) const {
  std::string out;
  for (const std::size_t index : where.stations) {
    const Station& station = layout.stations[index];
    if (!station.member.empty()) out += (out.empty() ? "" : ", ") + word_for("member." + station.member, words_.language());
    out += (out.empty() ? "" : station.member.empty() ? "–" : " ") + words_.say(Message{"cell", {station_argument("word", station.id)}});
  }
  std::string directions;
  for (const std::size_t index : where.directions) {
    directions += (directions.empty() ? "" : "/") + words_.say(Message{"cell", {direction_argument("word", layout.directions[index].id)}});
  }
  // Directions of several members would not say whose they are.
  const bool borrowed = std::any_of(where.stations.begin(), where.stations.end(), [&](std::size_t each) { return !layout.stations[each].member.empty(); });
  if (directions.empty() || borrowed) return out;
  return out.empty() ? directions : out + ", " + directions;
}

std::string VerdictFigures::definition_name(const std::string& definition, Feature feature) const {
  return word_for("definition." + definition + "." + std::string(feature_name(feature)), words_.language());
}

std::string VerdictFigures::typed_bound(const Limit& limit) const {
  if (!limit.per) return limit.bound.text;
  return words_.say(Message{"limit.per", {verbatim("bound", limit.bound.text), verbatim("per", limit.per->text)}});
}

std::string VerdictFigures::side_sign(const Limit& limit) {
  switch (limit.side) {
    case LimitSide::at_most: return "≤";
    case LimitSide::at_least: return "≥";
  }
  return "";
}

std::string VerdictFigures::size(const Ratio& value, Dimension quantity) const {
  const FigureStyle style = style_read(quantity, unit_);
  return with_unit(shown(value, style), style.unit);
}

std::string VerdictFigures::size(double value, Dimension quantity) const {
  const FigureStyle style = style_read(quantity, unit_);
  return with_unit(shown(value, style), style.unit);
}

}  // namespace fettle
