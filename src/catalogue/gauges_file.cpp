#include "catalogue/file_words.h"
#include "catalogue/files.h"
#include "catalogue/table_reader.h"

namespace fettle {
namespace {

constexpr WordTable<GaugeAction, 2> kActions{{{"direct", GaugeAction::direct}, {"comparison", GaugeAction::comparison}}};
constexpr WordTable<MasterKind, 3> kMasters{
    {{"micrometer", MasterKind::micrometer}, {"ring", MasterKind::ring}, {"blocks", MasterKind::blocks}}};
constexpr WordTable<ComponentUse, 3> kUses{{{"always", ComponentUse::always},
                                            {"read-on-part", ComponentUse::read_on_part},
                                            {"lent-as-master", ComponentUse::lent_as_master}}};

bool may_be_spread(const Quantity& quantity) {
  const Dimension dimension = quantity.dimension();
  return dimension != Dimension::time && dimension != Dimension::count && quantity.value.sign() >= 0;
}

/// `half_width` for a rectangular or triangular spread, `standard_uncertainty` for a normal one.
void read_spread(TableReader& table, ErrorComponent& out) {
  const std::string_view key = out.shape == ErrorShape::normal ? "standard_uncertainty" : "half_width";
  const auto spread = table.optional_quantity(key);
  if (!spread || !may_be_spread(*spread)) {
    table.missing(key);
    return;
  }
  out.spread = *spread;
  out.spread_as_typed = table.text(key);
}

ErrorComponent read_component(const DocumentNode& node, Problems& problems) {
  TableReader table(node, problems);
  ErrorComponent out{table.text("id"),
                     table.word("scope", kScopes),
                     table.word("shape", kShapes),
                     Quantity{Ratio(), UnitId::micrometre},
                     {},
                     table.optional_whole("degrees_of_freedom"),
                     table.optional_word("use", kUses).value_or(ComponentUse::always),
                     table.optional_word("set_on", kMasters),
                     table.word("mark", kMarks),
                     table.text("origin")};
  read_spread(table, out);
  table.finish();
  return out;
}

std::vector<ErrorComponent> read_components(const std::vector<const DocumentNode*>& nodes, Problems& problems) {
  std::vector<ErrorComponent> out;
  std::vector<std::pair<std::string, Place>> ids;
  for (const DocumentNode* node : nodes) {
    out.push_back(read_component(*node, problems));
    ids.emplace_back(out.back().id, node->place);
  }
  refuse_ids_twice(ids, problems);
  return out;
}

/// Components that several presets share stand once in the file, under [[shared]], and are named by `shares`.
void add_shared(TableReader& table, const std::vector<ErrorComponent>& shared, GaugePreset& out) {
  for (const std::string& id : table.texts("shares")) {
    bool found = false;
    std::string known;
    for (const ErrorComponent& each : shared) {
      known += (known.empty() ? "" : ", ") + each.id;
      if (each.id != id) continue;
      out.components.push_back(each);
      found = true;
    }
    if (!found) table.unknown_word("shares", id, known);
  }
}

GaugePreset read_preset(const DocumentNode& node, const std::vector<ErrorComponent>& shared, Problems& problems) {
  TableReader table(node, problems);
  GaugePreset out{table.text("id"),
                  table.word("action", kActions),
                  table.optional_word("touches", kFeatures),
                  table.optional_quantity("division"),
                  table.optional_length("from"),
                  table.optional_length("to"),
                  table.optional_length("turn"),
                  table.optional_length("travel"),
                  table.optional_word("serves_as", kMasters),
                  read_components(table.tables("component"), problems),
                  table.optional_word("measures", kQuantities).value_or(Dimension::length),
                  table.optional_truth("both_ways").value_or(false)};
  add_shared(table, shared, out);
  // A spread is of what the gauge measures, in its unit or in divisions.
  for (const ErrorComponent& each : out.components) {
    const Dimension spread = each.spread.dimension();
    if (spread != out.measures && spread != Dimension::divisions) table.missing("half_width");
  }
  if (out.division && out.division->dimension() != Dimension::length) table.missing("division");
  table.finish();
  return out;
}

}  // namespace

namespace {

std::vector<GaugePreset> read_presets(TableReader& table, Problems& problems) {
  const auto shared = read_components(table.tables("shared"), problems);
  std::vector<GaugePreset> out;
  std::vector<std::pair<std::string, Place>> ids;
  for (const DocumentNode* node : table.tables("gauge")) {
    out.push_back(read_preset(*node, shared, problems));
    ids.emplace_back(out.back().id, node->place);
  }
  refuse_ids_twice(ids, problems);
  return out;
}

}  // namespace

std::vector<GaugePreset> read_own_gauges(std::string_view text, Problems& problems) {
  const auto root = take(read_document(text, "gauges.toml"), problems);
  if (!root) return {};
  TableReader table(*root, problems);
  auto out = read_presets(table, problems);
  table.finish();
  return out;
}

GaugesFile read_gauges(std::string_view text, Problems& problems) {
  GaugesFile out;
  const auto root = take(read_document(text, "gauges.toml"), problems);
  if (!root) return out;
  TableReader table(*root, problems);
  out.presets = read_presets(table, problems);
  if (const DocumentNode* node = table.node("temperature")) {
    out.temperature.push_back(read_component(*node, problems));
    const bool read = !out.temperature.back().spread_as_typed.empty();
    if (read && out.temperature.back().spread.dimension() != Dimension::temperature) TableReader(*node, problems).missing("standard_uncertainty");
  } else {
    table.missing("temperature");
  }
  table.finish();
  return out;
}

}  // namespace fettle
