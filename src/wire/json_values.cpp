#include "wire/json_values.h"

#include "catalogue/figure_style.h"
#include "units/print.h"

namespace fettle::json {
namespace {

struct ArgumentJson {
  Json operator()(const Verbatim& verbatim) const { return verbatim.text; }
  Json operator()(std::int64_t number) const { return number; }
  Json operator()(const FigureText& figures) const { return figures.text; }
  Json operator()(const DecimalText& decimal) const { return {{"value", decimal.digits}, {"unit", decimal.unit}}; }
  Json operator()(const WordKey& word) const { return {{"word", word.key}}; }
  Json operator()(const std::vector<Message>& list) const { return messages(list); }
};

Json arguments(const std::vector<Argument>& arguments) {
  Json out = Json::object();
  for (const Argument& each : arguments) out[each.name] = std::visit(ArgumentJson{}, each.value);
  return out;
}

}  // namespace

Json length(const Ratio& counts, UnitId unit) {
  return {{"value", in_unit(counts, unit, fine_decimals(unit))}, {"unit", std::string(unit_definition(unit).symbol)}};
}

Json figure(const Ratio& value, ResultDimension dimension, UnitId unit) {
  const FigureStyle style = usual_style(dimension, unit);
  return {{"value", shown(value, style)}, {"unit", style.unit}};
}

Json read(const Ratio& exact, Dimension quantity, UnitId unit) {
  const FigureStyle style = style_read(quantity, unit);
  return {{"value", shown(exact, style)}, {"unit", style.unit}};
}

Json read(double estimate, Dimension quantity, UnitId unit) {
  if (quantity == Dimension::length) return json::estimate(estimate, ResultDimension::length, unit);
  const FigureStyle style = style_read(quantity, unit);
  return {{"value", shown(estimate, style)}, {"unit", style.unit}};
}

Json chance(const Chance& chance) {
  return {{"value", print_fixed(chance.value, 4)}, {"standard_error", print_fixed(chance.standard_error, 5)}, {"points", chance.points}};
}

Json estimate(double value, ResultDimension dimension, UnitId unit) {
  if (dimension == ResultDimension::length) return {{"value", print_length(value, unit)}, {"unit", std::string(unit_definition(unit).symbol)}};
  const FigureStyle style = usual_style(dimension, unit);
  return {{"value", shown(value, style)}, {"unit", style.unit}};
}

Json where(const Where& where, const Layout& layout) {
  Json stations = Json::array();
  for (std::size_t index : where.stations) {
    const Station& station = layout.stations[index];
    stations.push_back(station.member.empty() ? station.id : station.member + "/" + station.id);
  }
  Json directions = Json::array();
  for (std::size_t index : where.directions) directions.push_back(layout.directions[index].id);
  return {{"stations", std::move(stations)}, {"directions", std::move(directions)}};
}

Json message(const Message& message) { return {{"key", message.key}, {"arguments", arguments(message.arguments)}}; }

Json messages(const std::vector<Message>& list) {
  Json out = Json::array();
  for (const Message& each : list) out.push_back(message(each));
  return out;
}

Json problem(const Problem& problem) {
  Json place = Json::object();
  if (!problem.place.file.empty()) place["file"] = problem.place.file;
  if (problem.place.line) place["line"] = *problem.place.line;
  if (problem.place.column) place["column"] = *problem.place.column;
  return {{"code", problem.code}, {"place", std::move(place)}, {"arguments", arguments(problem.arguments)}};
}

Json problems(const Problems& list) {
  Json out = Json::array();
  for (const Problem& each : list) out.push_back(problem(each));
  return out;
}

std::string side(NeedleSide side) {
  switch (side) {
    case NeedleSide::clockwise: return "clockwise";
    case NeedleSide::anticlockwise: return "anticlockwise";
  }
  return "";
}

Json typed(const TypedQuantity& typed) {
  const Ratio& value = typed.quantity.value;
  Json out = {{"text", typed.text},
              {"dimension", std::string(dimension_name(typed.quantity.dimension()))},
              {"unit", std::string(unit_definition(typed.quantity.unit).symbol)},
              {"numerator", to_text(value.numerator())},
              {"denominator", to_text(value.denominator())},
              {"decimals", typed.decimals}};
  if (typed.side) out["needle"] = side(*typed.side);
  if (const auto exact = exact_length(typed.quantity)) {
    out["mm"] = in_unit(exact->ratio(), UnitId::millimetre, 7);
  }
  return out;
}

}  // namespace fettle::json
