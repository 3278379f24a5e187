#include "units/exact_decimal.h"
#include "wire/json_text.h"
#include "wire/json_values.h"

namespace fettle {
namespace {

using json::Json;

/// Every digit; a plain number has the unit "1".
Json whole_figure(const TypedQuantity& typed) {
  const Unit& unit = unit_definition(typed.quantity.unit);
  return {{"value", exact_decimal(typed.quantity.value).value()}, {"unit", unit.dimension == Dimension::count ? "1" : std::string(unit.symbol)}};
}

Json rule_json(const ThumbRule& rule, const ThumbSizes& sizes) {
  Json out = {{"id", rule.id}, {"about", rule.about}};
  if (rule.definition) out["definition"] = *rule.definition;
  out["role"] = std::string(role_name(rule.role));
  out["side"] = rule.side ? std::string(side_name(*rule.side)) : "around";
  if (const auto figure = thumb_figure(rule, sizes)) {
    out["figure"] = whole_figure(figure->bound);
    if (figure->per) out["per"] = whole_figure(*figure->per);
  } else if (const auto missing = thumb_size_missing(rule, sizes)) {
    out["missing"] = std::string(thumb_size_name(*missing));
  }
  out["makers_figure"] = false;
  out["accepted"] = false;
  out["mark"] = std::string(thumb_mark_name(rule.mark));
  out["origin"] = rule.origin;
  return out;
}

}  // namespace

std::string thumb_json(const std::vector<const ThumbRule*>& rules, const ThumbSizes& sizes) {
  Json list = Json::array();
  for (const ThumbRule* each : rules) list.push_back(rule_json(*each, sizes));
  const Json out = {{"format", "fettle-thumb"}, {"version", 1}, {"rules", std::move(list)}};
  return out.dump(json::kIndent) + "\n";
}

}  // namespace fettle
