#include "catalogue/mistakes.h"

#include <algorithm>

#include "base/assertion.h"
#include "base/document.h"
#include "catalogue/table_reader.h"
#include "embedded/catalogue_files.h"

namespace fettle {
namespace {

MistakeKind read_mistake(const DocumentNode& node, Problems& problems) {
  TableReader reader(node, problems);
  MistakeKind out{};
  out.id = reader.text("id");
  out.rate = reader.figure("per_thousand").to_double() / 1000.0;
  out.amount = reader.word("amount", kMistakeAmounts);
  if (const auto scale = reader.optional_length("scale")) out.scale_um = scale->millimetres() * 1000.0;
  if ((out.scale_um > 0.0) != (out.amount == MistakeAmount::spread)) reader.missing("scale");
  out.sense = reader.word("sense", kMistakeSenses);
  out.where = reader.word("where", kMistakePlaces);
  out.reach = reader.word("reach", kMistakeReaches);
  out.origin = reader.text("origin");
  reader.finish();
  return out;
}

std::vector<MistakeKind> read_mistakes() {
  const auto document = read_document(catalogue_files("mistakes.toml"), "mistakes.toml");
  FETTLE_ASSERT(document.ok(), "mistakes.toml is no TOML");
  Problems problems;
  TableReader top(document.value(), problems);
  std::vector<MistakeKind> out;
  for (const DocumentNode* node : top.tables("mistake")) out.push_back(read_mistake(*node, problems));
  top.finish();
  FETTLE_ASSERT(problems.empty(), problems.empty() ? "" : problems.front().code);
  return out;
}

}  // namespace

const std::vector<MistakeKind>& mistake_kinds() {
  static const std::vector<MistakeKind> kinds = read_mistakes();
  return kinds;
}

const MistakeKind* mistake_kind(std::string_view id) {
  const auto& kinds = mistake_kinds();
  const auto found = std::find_if(kinds.begin(), kinds.end(), [&](const MistakeKind& each) { return each.id == id; });
  return found == kinds.end() ? nullptr : &*found;
}

}  // namespace fettle
