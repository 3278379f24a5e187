#include "catalogue/catalogue.h"

#include <algorithm>
#include <array>
#include <atomic>
#include <optional>
#include <set>

#include "base/joined.h"
#include "catalogue/files.h"
#include "embedded/catalogue_files.h"

namespace fettle {
namespace {

template <class T>
const T* with_id(const std::vector<T>& items, std::string_view id) {
  const auto found = std::find_if(items.begin(), items.end(), [&](const T& item) { return item.id == id; });
  return found == items.end() ? nullptr : &*found;
}

template <class T>
void add_all(std::vector<T>& to, std::vector<T> own, const std::string& file, Problems& problems) {
  for (T& each : own) {
    if (with_id(to, each.id) != nullptr) problems.push_back(Problem{"catalogue.id_twice", {file, {}, {}}, {verbatim("id", each.id)}});
    to.push_back(std::move(each));
  }
}

/// The groups of parts that have files of their own: kinds_bottom_end.toml, definitions_bottom_end.toml.
constexpr std::array kGroups = {"bottom_end", "valve_gear", "drive", "two_stroke"};

std::vector<NamedText> named_texts(const std::string& start) {
  std::vector<NamedText> out;
  for (const char* group : kGroups) {
    const std::string file = start + group + ".toml";
    out.push_back({file, catalogue_files(file)});
  }
  return out;
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

const KindSection* Catalogue::section_of(std::string_view kind) const {
  const auto found = std::find_if(sections.begin(), sections.end(),
                                  [&](const KindSection& each) { return std::find(each.kinds.begin(), each.kinds.end(), kind) != each.kinds.end(); });
  return found == sections.end() ? nullptr : &*found;
}

std::size_t Catalogue::strip_place(std::string_view kind) const {
  std::size_t place = 0;
  for (const KindSection& each : sections) {
    const auto found = std::find(each.kinds.begin(), each.kinds.end(), kind);
    if (found != each.kinds.end()) return place + static_cast<std::size_t>(found - each.kinds.begin());
    place += each.kinds.size();
  }
  return place;
}

Result<Catalogue> read_catalogue(const CatalogueTexts& texts) {
  Problems problems;
  auto materials = read_materials(texts.materials, problems);
  auto kinds = read_kinds(texts.kinds, "kinds.toml", materials, problems);
  for (const NamedText& more : texts.more_kinds) add_all(kinds, read_kinds(more.text, more.file, materials, problems), more.file, problems);
  auto gauges = read_gauges(texts.gauges, problems);
  auto definitions = read_definitions(texts.definitions, "definitions.toml", problems);
  for (const NamedText& more : texts.more_definitions) add_all(definitions, read_definitions(more.text, more.file, problems), more.file, problems);
  auto sections = read_sections(texts.sections, kinds, problems);
  sort_by_place(problems);
  if (!problems.empty()) return problems;
  return Catalogue{std::move(materials), std::move(kinds), std::move(gauges.presets), std::move(definitions),
                   std::move(gauges.temperature.front()), std::move(sections)};
}

CatalogueTexts built_in_texts() {
  return {catalogue_files("materials.toml"), catalogue_files("kinds.toml"), catalogue_files("gauges.toml"),
          catalogue_files("definitions.toml"), named_texts("kinds_"), named_texts("definitions_"), catalogue_files("sections.toml")};
}

namespace {

/// Before the first question the place is empty.
std::optional<Catalogue>& own_catalogue() {
  static std::optional<Catalogue> kOwn;
  return kOwn;
}
std::atomic<bool> catalogue_was_asked_for{false};

}  // namespace

namespace {

/// A sentence is made in `text` only: a definition of one's own may use one that is there.
void refuse_own_sentences(const std::vector<Definition>& built_in, const std::vector<Definition>& all, Problems& problems) {
  std::set<std::string> known;
  for (const Definition& each : built_in) {
    if (each.unfit) known.insert(each.unfit->say);
  }
  for (const Definition& each : all) {
    if (!each.unfit || known.contains(each.unfit->say)) continue;
    problems.push_back(Problem{"catalogue.unknown_word", {"definitions.toml", {}, {}},
                               {verbatim("key", "say"), verbatim("word", each.unfit->say), verbatim("known", joined(known))}});
  }
}

}  // namespace

Result<Catalogue> extended(const Catalogue& base, const CatalogueTexts& own) {
  Problems problems;
  Catalogue out = base;
  add_all(out.materials, read_materials(own.materials, problems), "materials.toml", problems);
  add_all(out.kinds, read_kinds(own.kinds, "kinds.toml", out.materials, problems), "kinds.toml", problems);
  add_all(out.gauge_presets, read_own_gauges(own.gauges, problems), "gauges.toml", problems);
  add_all(out.definitions, read_definitions(own.definitions, "definitions.toml", problems), "definitions.toml", problems);
  refuse_own_sentences(base.definitions, out.definitions, problems);
  for (const Kind& kind : out.kinds) {
    for (const KindMember& member : kind.members) {
      for (const std::string& each : member.kinds) {
        if (out.kind(each) != nullptr) continue;
        problems.push_back(Problem{"catalogue.unknown_kind", {"kinds.toml", {}, {}}, {verbatim("kind", each), verbatim("id", kind.id)}});
      }
    }
  }
  for (const Kind& kind : out.kinds) {
    for (const std::string& each : kind.gauges) {
      if (out.gauge_preset(each) != nullptr) continue;
      problems.push_back(Problem{"catalogue.unknown_gauge", {"kinds.toml", {}, {}}, {verbatim("gauge", each), verbatim("id", kind.id)}});
    }
  }
  for (const Definition& definition : out.definitions) {
    for (const std::string& each : definition.kinds) {
      if (out.kind(each) != nullptr) continue;
      problems.push_back(Problem{"catalogue.unknown_kind", {"definitions.toml", {}, {}}, {verbatim("kind", each), verbatim("id", definition.id)}});
    }
  }
  if (!problems.empty()) return problems;
  return out;
}

void use_catalogue(Catalogue own) {
  FETTLE_ASSERT(!catalogue_was_asked_for, "a catalogue put in place after it was asked for");
  own_catalogue() = std::move(own);
}

const Catalogue& catalogue() {
  static const Catalogue kCatalogue = own_catalogue() ? *own_catalogue() : read_built_in();
  catalogue_was_asked_for = true;
  return kCatalogue;
}

bool is_numbered(std::string_view id) {
  const std::size_t dash = id.rfind('-');
  if (dash == std::string_view::npos || dash + 1 == id.size()) return false;
  const std::string_view tail = id.substr(dash + 1);
  return std::all_of(tail.begin(), tail.end(), [](char c) { return c >= '0' && c <= '9'; });
}

Argument station_argument(std::string name, const std::string& id) {
  const auto& kinds = catalogue().kinds;
  // Of a row of mains or cylinders the kinds have the first few; an engine may have more.
  const std::string first = id.substr(0, id.rfind('-') + 1) + "1";
  const bool known = std::any_of(kinds.begin(), kinds.end(), [&](const Kind& kind) {
    return kind.layout.find_station(id).has_value() || (is_numbered(id) && kind.layout.find_station(first).has_value());
  });
  return known ? word(std::move(name), "station." + id) : verbatim(std::move(name), id);
}

Argument direction_argument(std::string name, const std::string& id) {
  const auto& kinds = catalogue().kinds;
  const bool known = std::any_of(kinds.begin(), kinds.end(),
                                 [&](const Kind& kind) { return kind.layout.find_direction(id).has_value(); });
  return known ? word(std::move(name), "direction." + id) : verbatim(std::move(name), id);
}

}  // namespace fettle
