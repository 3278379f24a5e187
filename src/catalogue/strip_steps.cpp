#include "catalogue/strip_steps.h"

#include <algorithm>
#include <array>

#include "base/assertion.h"
#include "base/document.h"
#include "catalogue/table_reader.h"
#include "embedded/catalogue_files.h"

namespace fettle {
namespace {

StripStep read_step(const DocumentNode& node, Problems& problems) {
  TableReader reader(node, problems);
  StripStep out{};
  out.id = reader.text("id");
  out.act = reader.word("act", kStripActs);
  out.kinds = reader.texts("kinds");
  out.stations = reader.texts("stations");
  out.before = reader.texts("before");
  out.cautions = reader.texts("cautions");
  out.origin = reader.text("origin");
  reader.finish();
  return out;
}

std::vector<StripStep> read_steps() {
  const auto document = read_document(catalogue_files("strip_steps.toml"), "strip_steps.toml");
  FETTLE_ASSERT(document.ok(), "strip_steps.toml is no TOML");
  Problems problems;
  TableReader top(document.value(), problems);
  std::vector<StripStep> out;
  for (const DocumentNode* node : top.tables("step")) out.push_back(read_step(*node, problems));
  top.finish();
  FETTLE_ASSERT(problems.empty(), problems.empty() ? "" : problems.front().code);
  return out;
}

}  // namespace

const std::vector<StripStep>& strip_steps() {
  static const std::vector<StripStep> steps = read_steps();
  return steps;
}

const StripStep* strip_step(std::string_view id) {
  const auto& steps = strip_steps();
  const auto found = std::find_if(steps.begin(), steps.end(), [&](const StripStep& each) { return each.id == id; });
  return found == steps.end() ? nullptr : &*found;
}

bool comes_in_steps(std::string_view kind) {
  constexpr std::array kKinds = {"cylinder-bore", "liner-bore", "piston", "main-journal", "crankpin", "bearing-shell", "cam-journal"};
  return std::find(kKinds.begin(), kKinds.end(), kind) != kKinds.end();
}

}  // namespace fettle
