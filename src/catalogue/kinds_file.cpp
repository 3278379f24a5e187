#include <algorithm>

#include "catalogue/file_words.h"
#include "base/joined.h"
#include "catalogue/files.h"
#include "catalogue/table_reader.h"

namespace fettle {
namespace {

Station read_station(const DocumentNode& node, Problems& problems) {
  TableReader table(node, problems);
  Station out{table.text("id"), table.word("role", kRoles), true, table.optional_length("depth")};
  out.counted = table.optional_truth("counted").value_or(out.role != StationRole::reference);
  out.quantity = table.optional_word("quantity", kQuantities);
  out.group = table.optional_text("group");
  out.span = table.optional_length("span");
  table.finish();
  return out;
}

Direction read_direction(const DocumentNode& node, Problems& problems) {
  TableReader table(node, problems);
  Direction out{table.text("id"), Ratio(), table.optional_truth("counted").value_or(true)};
  out.quantity = table.optional_word("quantity", kQuantities);
  out.offset = table.optional_length("offset");
  const auto angle = table.optional_quantity("angle");
  if (angle && angle->dimension() == Dimension::angle) {
    out.angle_degrees = angle->in_base();
  } else {
    table.missing("angle");
  }
  table.finish();
  return out;
}

KindMember read_member(const DocumentNode& node, Problems& problems) {
  TableReader table(node, problems);
  KindMember out{table.text("role"), table.texts("kinds")};
  if (out.kinds.empty()) table.missing("kinds");
  table.finish();
  return out;
}

StationGauges read_station_gauges(const DocumentNode& node, const Layout& layout, Problems& problems) {
  TableReader table(node, problems);
  StationGauges out{table.text("station"), table.texts("gauges")};
  if (out.gauges.empty()) table.missing("gauges");
  if (!layout.find_station(out.station)) table.unknown_word("station", out.station, joined_ids(layout.stations));
  table.finish();
  return out;
}

std::vector<KindLine> read_lines(TableReader& kind, std::string_view key, Problems& problems) {
  std::vector<KindLine> out;
  std::vector<std::pair<std::string, Place>> ids;
  for (const DocumentNode* node : kind.tables(key)) {
    TableReader table(*node, problems);
    out.push_back({table.text("id"), table.text("origin"), table.optional_text("text")});
    if (!out.back().id.empty()) ids.emplace_back(out.back().id, node->place);
    table.finish();
  }
  refuse_ids_twice(ids, problems);
  return out;
}

/// A pattern of wear is one of diameters: of a figure there is none. Every station that is named is one of the layout.
KindWear read_wear(const DocumentNode* node, const Kind& kind, Problems& problems) {
  if (node == nullptr) return {WearPattern::none, NotWorn::not_said, {}, ""};
  TableReader table(*node, problems);
  KindWear out{table.word("pattern", kWearPatterns), std::nullopt, table.texts("unworn"), table.text("origin")};
  const bool worn = out.pattern != WearPattern::none;
  if (!worn) out.why_none = table.word("why_none", kNotWorn);
  table.finish();
  if (worn && kind.feature == Feature::figure) table.unknown_word("pattern", std::string(*word_of(kWearPatterns, out.pattern)), "none");
  for (const std::string& id : out.unworn) {
    if (!kind.layout.find_station(id)) table.unknown_word("unworn", id, joined_ids(kind.layout.stations));
  }
  return out;
}

Kind read_kind(const DocumentNode& node, const std::vector<Material>& materials, Problems& problems) {
  TableReader table(node, problems);
  Kind out{table.text("id"), table.word("feature", kFeatures), table.text("material"), {}, table.text("origin")};
  const auto known = std::find_if(materials.begin(), materials.end(), [&](const Material& each) { return each.id == out.material; });
  if (known == materials.end()) table.unknown_word("material", out.material, joined_ids(materials));
  for (const DocumentNode* station : table.tables("station")) out.layout.stations.push_back(read_station(*station, problems));
  for (const DocumentNode* direction : table.tables("direction")) {
    out.layout.directions.push_back(read_direction(*direction, problems));
  }
  out.wear = read_wear(table.node("wear"), out, problems);
  out.gauges = table.texts("gauges");
  for (const DocumentNode* at : table.tables("gauges_at")) out.gauges_at.push_back(read_station_gauges(*at, out.layout, problems));
  for (const std::string& each : table.texts("conditions")) {
    const auto condition = value_of(kMeasuredWhen, each);
    if (condition) {
      out.conditions.push_back(*condition);
    } else {
      table.unknown_word("conditions", each, all_words(kMeasuredWhen));
    }
  }
  for (const DocumentNode* member : table.tables("member")) out.members.push_back(read_member(*member, problems));
  out.how = read_lines(table, "how", problems);
  out.mistakes = read_lines(table, "mistakes", problems);
  out.cautions = read_lines(table, "cautions", problems);
  table.finish();
  // An assembly may have no place of its own.
  if (!out.members.empty() && out.layout == Layout{}) return out;
  const Problems wrong = layout_problems(out.layout, node.place);
  problems.insert(problems.end(), wrong.begin(), wrong.end());
  return out;
}

Material read_material(const DocumentNode& node, Problems& problems) {
  TableReader table(node, problems);
  Material out{table.text("id"), table.figure("expansion_per_celsius"), table.word("mark", kMarks), table.text("origin")};
  table.finish();
  return out;
}

/// The tables under the one key that a file of this kind may hold.
std::vector<const DocumentNode*> only_tables(const DocumentNode& root, std::string_view key, Problems& problems) {
  TableReader table(root, problems);
  auto out = table.tables(key);
  table.finish();
  return out;
}

template <class T>
void refuse_twice(const std::vector<T>& items, const std::vector<const DocumentNode*>& nodes, Problems& problems) {
  std::vector<std::pair<std::string, Place>> ids;
  for (std::size_t i = 0; i < items.size(); ++i) ids.emplace_back(items[i].id, nodes[i]->place);
  refuse_ids_twice(ids, problems);
}

}  // namespace

std::vector<Material> read_materials(std::string_view text, Problems& problems) {
  const auto root = take(read_document(text, "materials.toml"), problems);
  std::vector<Material> out;
  if (!root) return out;
  const auto nodes = only_tables(*root, "material", problems);
  for (const DocumentNode* node : nodes) out.push_back(read_material(*node, problems));
  refuse_twice(out, nodes, problems);
  return out;
}

std::vector<Kind> read_kinds(std::string_view text, const std::string& file, const std::vector<Material>& materials, Problems& problems) {
  const auto root = take(read_document(text, file), problems);
  std::vector<Kind> out;
  if (!root) return out;
  const auto nodes = only_tables(*root, "kind", problems);
  for (const DocumentNode* node : nodes) out.push_back(read_kind(*node, materials, problems));
  refuse_twice(out, nodes, problems);
  return out;
}

std::vector<KindSection> read_sections(std::string_view text, const std::vector<Kind>& kinds, Problems& problems) {
  if (text.empty()) return {};
  const auto root = take(read_document(text, "sections.toml"), problems);
  std::vector<KindSection> out;
  if (!root) return out;
  const auto nodes = only_tables(*root, "section", problems);
  std::vector<std::pair<std::string, Place>> listed;
  for (const DocumentNode* node : nodes) {
    TableReader table(*node, problems);
    out.push_back({table.text("id"), table.texts("kinds")});
    for (const std::string& each : out.back().kinds) {
      const bool known = std::any_of(kinds.begin(), kinds.end(), [&](const Kind& kind) { return kind.id == each; });
      if (!known) table.unknown_word("kinds", each, joined_ids(kinds));
      listed.emplace_back(each, node->place);
    }
    table.finish();
  }
  refuse_twice(out, nodes, problems);
  refuse_ids_twice(listed, problems);
  return out;
}

}  // namespace fettle
