#include "catalogue/catalogue.h"

#include <algorithm>

#include "catalogue/files.h"
#include "embedded/catalogue_files.h"

namespace fettle {
namespace {

template <class T>
const T* with_id(const std::vector<T>& items, std::string_view id) {
  const auto found = std::find_if(items.begin(), items.end(), [&](const T& item) { return item.id == id; });
  return found == items.end() ? nullptr : &*found;
}

Catalogue read_built_in() {
  auto read = read_catalogue(built_in_texts());
  if (read.ok()) return std::move(read).value();
  std::string all;
  for (const Problem& problem : read.problems()) {
    all += problem.place.file + ":" + std::to_string(problem.place.line.value_or(0)) + " " + problem.code + "; ";
  }
  throw InternalError("the built-in catalogue: " + all);
}

}  // namespace

const Material* Catalogue::material(std::string_view id) const { return with_id(materials, id); }
const Kind* Catalogue::kind(std::string_view id) const { return with_id(kinds, id); }
const GaugePreset* Catalogue::gauge_preset(std::string_view id) const { return with_id(gauge_presets, id); }
const Definition* Catalogue::definition(std::string_view id) const { return with_id(definitions, id); }

Result<Catalogue> read_catalogue(const CatalogueTexts& texts) {
  Problems problems;
  auto materials = read_materials(texts.materials, problems);
  auto kinds = read_kinds(texts.kinds, materials, problems);
  auto gauges = read_gauges(texts.gauges, problems);
  auto definitions = read_definitions(texts.definitions, problems);
  sort_by_place(problems);
  if (!problems.empty()) return problems;
  return Catalogue{std::move(materials), std::move(kinds), std::move(gauges.presets), std::move(definitions),
                   std::move(gauges.temperature.front())};
}

CatalogueTexts built_in_texts() {
  return {catalogue_files("materials.toml"), catalogue_files("kinds.toml"), catalogue_files("gauges.toml"),
          catalogue_files("definitions.toml")};
}

const Catalogue& catalogue() {
  static const Catalogue kCatalogue = read_built_in();
  return kCatalogue;
}

Argument station_argument(std::string name, const std::string& id) {
  const auto& kinds = catalogue().kinds;
  const bool known = std::any_of(kinds.begin(), kinds.end(),
                                 [&](const Kind& kind) { return kind.layout.find_station(id).has_value(); });
  return known ? word(std::move(name), "station." + id) : verbatim(std::move(name), id);
}

Argument direction_argument(std::string name, const std::string& id) {
  const auto& kinds = catalogue().kinds;
  const bool known = std::any_of(kinds.begin(), kinds.end(),
                                 [&](const Kind& kind) { return kind.layout.find_direction(id).has_value(); });
  return known ? word(std::move(name), "direction." + id) : verbatim(std::move(name), id);
}

}  // namespace fettle
