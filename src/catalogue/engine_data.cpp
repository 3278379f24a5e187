#include <algorithm>

#include "base/assertion.h"
#include "base/document.h"
#include "catalogue/engine_plan.h"
#include "catalogue/table_reader.h"
#include "embedded/catalogue_files.h"

namespace fettle {
namespace {

std::vector<EngineCondition> read_engine_conditions(TableReader& table, Problems& problems) {
  std::vector<EngineCondition> out;
  for (const DocumentNode* node : table.tables("when")) {
    TableReader reader(*node, problems);
    out.push_back({reader.text("question"), reader.texts("any_of")});
    if (out.back().any_of.empty()) reader.missing("any_of");
    reader.finish();
  }
  return out;
}

EngineQuestion read_engine_question(const DocumentNode& node, Problems& problems) {
  TableReader reader(node, problems);
  EngineQuestion out{};
  out.id = reader.text("id");
  out.choices = reader.texts("choices");
  if (out.choices.empty()) {
    out.least = reader.optional_whole("least").value_or(1);
    out.most = reader.optional_whole("most").value_or(1);
    out.usual = reader.text("usual");
    out.usual_more = reader.optional_whole("usual_more").value_or(0);
  }
  out.when = read_engine_conditions(reader, problems);
  reader.finish();
  return out;
}

EnginePart read_engine_part(const DocumentNode& node, Problems& problems) {
  TableReader reader(node, problems);
  EnginePart out{};
  out.kind = reader.text("kind");
  out.name = reader.text("name");
  out.per = reader.text("per");
  out.mark = reader.optional_text("mark").value_or("");
  out.when = read_engine_conditions(reader, problems);
  for (const DocumentNode* member : reader.tables("members")) {
    TableReader one(*member, problems);
    out.members.push_back({one.text("role"), one.text("name"), one.optional_truth("next").value_or(false)});
    one.finish();
  }
  out.stations_per = reader.optional_text("stations_per").value_or("");
  out.only = reader.texts("only");
  reader.finish();
  return out;
}

EngineData read_engine_data() {
  const auto document = read_document(catalogue_files("engine_parts.toml"), "engine_parts.toml");
  FETTLE_ASSERT(document.ok(), "engine_parts.toml is no TOML");
  Problems problems;
  TableReader top(document.value(), problems);
  EngineData out;
  for (const DocumentNode* node : top.tables("question")) out.questions.push_back(read_engine_question(*node, problems));
  for (const DocumentNode* node : top.tables("part")) out.parts.push_back(read_engine_part(*node, problems));
  top.finish();
  FETTLE_ASSERT(problems.empty(), problems.empty() ? "" : problems.front().code + " in line " + std::to_string(problems.front().place.line.value_or(0)));
  return out;
}

}  // namespace

const EngineData& engine_data() {
  static const EngineData data = read_engine_data();
  return data;
}

std::string part_name_of_kind(std::string_view kind) {
  const auto& parts = engine_data().parts;
  const auto found = std::find_if(parts.begin(), parts.end(), [&](const EnginePart& each) { return each.kind == kind; });
  return found == parts.end() ? std::string(kind) : found->name;
}

}  // namespace fettle
