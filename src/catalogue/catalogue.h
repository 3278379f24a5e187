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
  std::vector<KindSection> sections = {};  ///< in the order of taking apart; every built-in kind stands in one, kinds of somebody's own in none

  [[nodiscard]] const Material* material(std::string_view id) const;
  [[nodiscard]] const Kind* kind(std::string_view id) const;
  [[nodiscard]] const GaugePreset* gauge_preset(std::string_view id) const;
  [[nodiscard]] const Definition* definition(std::string_view id) const;
  /// Null: a kind of somebody's own.
  [[nodiscard]] const KindSection* section_of(std::string_view kind) const;
  /// Where a kind comes when an engine is taken apart; kinds that stand in no section come last.
  [[nodiscard]] std::size_t strip_place(std::string_view kind) const;
};

/// A further file of kinds or definitions.
struct NamedText {
  std::string file;
  std::string_view text;
};

/// The files a catalogue is made of, as text.
struct CatalogueTexts {
  std::string_view materials;
  std::string_view kinds;
  std::string_view gauges;
  std::string_view definitions;
  std::vector<NamedText> more_kinds = {};        ///< read after `kinds`, in this order
  std::vector<NamedText> more_definitions = {};  ///< read after `definitions`
  std::string_view sections = {};                ///< which kinds belong together; of the built-in kinds only
};

/// Gives the catalogue, or every problem of its files: syntax, unknown and missing keys, ids given twice, quantities
/// without unit, expressions outside the closed set.
[[nodiscard]] Result<Catalogue> read_catalogue(const CatalogueTexts& texts);

/// `base` with what somebody has written beside it: kinds, definitions, gauges and materials of his own, in the same files. An empty text
/// adds nothing; a file of gauges has no [temperature] here, and its gauges bring all their components. Problems as of read_catalogue, and
/// catalogue.id_twice for an id that `base` has.
[[nodiscard]] Result<Catalogue> extended(const Catalogue& base, const CatalogueTexts& own);

/// From now on catalogue() gives this one. For the program's start: needs that nobody has asked for the catalogue yet, else InternalError.
void use_catalogue(Catalogue own);

/// The texts that are built into the program.
[[nodiscard]] CatalogueTexts built_in_texts();

/// The catalogue: the built-in one, read once, or what use_catalogue put in its place. A problem in the built-in one is an InternalError.
[[nodiscard]] const Catalogue& catalogue();

/// "main-7": one of a row.
[[nodiscard]] bool is_numbered(std::string_view id);

/// The word for a station or direction that the built-in kinds know, else the id as it was typed.
[[nodiscard]] Argument station_argument(std::string name, const std::string& id);
[[nodiscard]] Argument direction_argument(std::string name, const std::string& id);

}  // namespace fettle
