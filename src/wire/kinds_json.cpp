#include "catalogue/file_words.h"
#include "catalogue/files.h"
#include "catalogue/kind_definitions.h"
#include "wire/json_text.h"
#include "wire/json_values.h"

namespace fettle {
namespace {

using json::Json;

Json wear_json(const KindWear& wear) {
  Json out = {{"pattern", std::string(word_of(kWearPatterns, wear.pattern).value())}, {"origin", wear.origin}};
  if (wear.why_none) out["why_none"] = std::string(word_of(kNotWorn, *wear.why_none).value());
  if (!wear.unworn.empty()) out["unworn"] = wear.unworn;
  return out;
}

Json station_json(const Station& station) {
  Json out = {{"id", station.id},
              {"role", std::string(role_name(station.role))},
              {"counted", station.counted},
              {"quantity", std::string(dimension_name(station.quantity.value_or(Dimension::length)))}};
  if (station.depth) out["depth"] = json::length(station.depth->ratio(), UnitId::millimetre);
  if (station.group) out["group"] = *station.group;
  if (station.span) out["span"] = json::length(station.span->ratio(), UnitId::millimetre);
  return out;
}

Json direction_json(const Direction& direction) {
  constexpr int kAngleDecimals = 4;
  Json out = {{"id", direction.id},
              {"angle", {{"value", direction.angle_degrees.decimal(kAngleDecimals)}, {"unit", "°"}}},
              {"counted", direction.counted}};
  if (direction.quantity) out["quantity"] = std::string(dimension_name(*direction.quantity));
  if (direction.offset) out["offset"] = json::length(direction.offset->ratio(), UnitId::millimetre);
  return out;
}

Json definitions_json(const KindDefinitions& definitions) {
  Json out = Json::array();
  for (const Definition* each : definitions.usual) out.push_back({{"id", each->id}, {"places", "enough"}});
  for (const Definition* each : definitions.with_more_places) out.push_back({{"id", each->id}, {"places", "more-needed"}});
  return out;
}

Json lines_json(const std::vector<KindLine>& lines) {
  Json out = Json::array();
  for (const KindLine& line : lines) {
    Json entry = {{"id", line.id}, {"origin", line.origin}};
    if (line.text) entry["text"] = *line.text;
    out.push_back(std::move(entry));
  }
  return out;
}

Json kind_json(const Kind& kind, const std::vector<Definition>& definitions) {
  Json out = {{"id", kind.id},
              {"feature", std::string(feature_name(kind.feature))},
              {"material", kind.material},
              {"wear", wear_json(kind.wear)},
              {"origin", kind.origin},
              {"gauges", kind.gauges},
              {"conditions", Json::array()},
              {"stations", Json::array()},
              {"directions", Json::array()},
              {"members", Json::array()}};
  for (const MeasuredWhen each : kind.conditions) out["conditions"].push_back(std::string(word_of(kMeasuredWhen, each).value()));
  for (const Station& each : kind.layout.stations) out["stations"].push_back(station_json(each));
  for (const Direction& each : kind.layout.directions) out["directions"].push_back(direction_json(each));
  for (const KindMember& each : kind.members) out["members"].push_back({{"role", each.role}, {"kinds", each.kinds}});
  out["definitions"] = definitions_json(definitions_for(kind, definitions));
  out["how"] = lines_json(kind.how);
  out["mistakes"] = lines_json(kind.mistakes);
  out["cautions"] = lines_json(kind.cautions);
  return out;
}

}  // namespace

std::string kinds_json(const std::vector<Kind>& kinds, const std::vector<Definition>& definitions) {
  Json list = Json::array();
  for (const Kind& kind : kinds) list.push_back(kind_json(kind, definitions));
  const Json out = {{"format", "fettle-kinds"}, {"version", 1}, {"kinds", std::move(list)}};
  return out.dump(json::kIndent) + "\n";
}

}  // namespace fettle
