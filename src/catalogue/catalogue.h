#pragma once

#include <string_view>
#include <vector>

#include "base/result.h"
#include "catalogue/definition.h"
#include "catalogue/gauge_preset.h"
#include "catalogue/kind.h"
#include "catalogue/material.h"

namespace fettle {

/// What the program knows about parts, gauges and books before anybody types anything. Immutable.
struct Catalogue {
  std::vector<Material> materials;
  std::vector<Kind> kinds;
  std::vector<GaugePreset> gauge_presets;
  std::vector<Definition> definitions;
  ErrorComponent temperature;  ///< difference from what was recorded or from 20 °C, where no temperature was recorded

  [[nodiscard]] const Material* material(std::string_view id) const;
  [[nodiscard]] const Kind* kind(std::string_view id) const;
  [[nodiscard]] const GaugePreset* gauge_preset(std::string_view id) const;
  [[nodiscard]] const Definition* definition(std::string_view id) const;
};

/// The files a catalogue is made of, as text.
struct CatalogueTexts {
  std::string_view materials;
  std::string_view kinds;
  std::string_view gauges;
  std::string_view definitions;
};

/// Gives the catalogue, or every problem of the four files: syntax, unknown and missing keys, ids given twice, quantities
/// without unit, expressions outside the closed set.
[[nodiscard]] Result<Catalogue> read_catalogue(const CatalogueTexts& texts);

/// The texts that are built into the program.
[[nodiscard]] CatalogueTexts built_in_texts();

/// The built-in catalogue, read once. A problem in it is an InternalError.
[[nodiscard]] const Catalogue& catalogue();

/// The word for a station or direction that the built-in kinds know, else the id as it was typed.
[[nodiscard]] Argument station_argument(std::string name, const std::string& id);
[[nodiscard]] Argument direction_argument(std::string name, const std::string& id);

}  // namespace fettle
