#include "embedded/simulate_files.h"
#include "simulate/families_file.h"
#include "simulate/span_reader.h"

namespace fettle {
namespace {

constexpr int kMostReadings = 16;  // of one place under one setting, and of settings

Hand read_hand(const DocumentNode& node, Problems& problems) {
  SpanReader reader(node, problems);
  Hand out{};
  out.id = reader.id();
  out.about = reader.table.text("about");
  out.setting_sd_um = reader.not_negative("setting", reader.micrometres("setting"));
  out.repeat_sd_um = reader.not_negative("repeat", reader.micrometres("repeat"));
  const auto division = reader.exact("division");
  if (division && division->counts() <= 0) reader.add("simulate.division");
  out.division = division.value_or(Length());
  if (reader.table.node("master") != nullptr)
    out.master_sd_um = reader.not_negative("master", reader.micrometres("master"));
  if (reader.table.node("drift") != nullptr)
    out.drift_sd_um = reader.not_negative("drift", reader.micrometres("drift"));
  if (reader.table.node("temperature") != nullptr) {
    out.temperature_sd_celsius = reader.not_negative("temperature", reader.celsius("temperature"));
  }
  const int repeats = reader.table.optional_whole("repeats").value_or(1);
  const int settings = reader.table.optional_whole("settings").value_or(1);
  // One place may not be read more than 64 times in a job.
  if (repeats < 1 || settings < 1 || repeats > kMostReadings || settings > kMostReadings || repeats * settings > 64) {
    reader.add("simulate.count", {count("most", kMostReadings)});
  }
  out.repeats = static_cast<std::size_t>(repeats);
  out.settings = static_cast<std::size_t>(settings);
  reader.table.finish();
  return out;
}

}  // namespace

Result<std::vector<Hand>> read_hands(std::string_view text, const std::string& file) {
  Problems problems;
  const auto root = take(read_document(text, file), problems);
  if (!root) return problems;
  TableReader table(*root, problems);
  const auto nodes = table.tables("hand");
  table.finish();
  if (nodes.empty()) problems.push_back(Problem{"simulate.no_families", root->place, {verbatim("key", "hand")}});
  std::vector<Hand> out;
  for (const DocumentNode* node : nodes) out.push_back(read_hand(*node, problems));
  refuse_twice(out, nodes, problems);
  tell_once(problems);
  if (!problems.empty()) return problems;
  return out;
}

const std::vector<Hand>& built_in_hands() {
  static const std::vector<Hand> kHands = must_read(read_hands(simulate_files("hands.toml"), "hands.toml"));
  return kHands;
}

const Hand* find_hand(const std::vector<Hand>& hands, std::string_view id) { return with_id(hands, id); }

}  // namespace fettle
