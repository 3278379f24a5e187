#include "form/plain_reason.h"

#include <optional>
#include <set>
#include <string_view>
#include <tuple>

namespace fettle {
namespace {

/// Why nothing is known of how it wears: the kind says so, or a layout of its own leaves a single place.
std::optional<NotWorn> not_worn(const PartOnBench& part) {
  if (part.wear.pattern == WearPattern::none) return part.wear.why_none.value_or(NotWorn::not_said);
  if (part.layout.cells() < 2) return NotWorn::single_place;
  return std::nullopt;
}

const char* not_worn_word(NotWorn why) {
  switch (why) {
    case NotWorn::single_place: return "plainly.single_place";
    case NotWorn::reckoned: return "plainly.reckoned";
    case NotWorn::nothing_runs: return "plainly.nothing_runs";
    case NotWorn::no_diameter: return "plainly.no_diameter";
    case NotWorn::separate_figures: return "plainly.separate_figures";
    case NotWorn::built_to_shape: return "plainly.built_to_shape";
    case NotWorn::not_said: return "plainly.not_said";
  }
  return "";
}

/// Empty for a worn part.
const char* condition_word(Condition condition) {
  switch (condition) {
    case Condition::worn: return "";
    case Condition::machined: return "plainly.machined";
    case Condition::fresh: return "plainly.fresh";
    case Condition::sleeved: return "plainly.sleeved";
  }
  return "";
}

}  // namespace

std::map<std::string, std::size_t> rows_read(const SizeSet& set) {
  std::set<std::tuple<std::string_view, std::size_t, std::string_view>> rows;
  std::map<std::string, std::size_t> out;
  for (const Size& size : set.sizes) {
    if (rows.emplace(size.part, size.cell, size.setting).second) ++out[size.part];
  }
  return out;
}

std::string plain_reason(const PartOnBench& part, std::size_t rows) {
  if (const auto why = not_worn(part)) return not_worn_word(*why);
  if (part.part.condition != Condition::worn) return condition_word(part.part.condition);
  if (rows == 0) return "plainly.not_read";
  return part.layout.cells() > kMostShapeCells || rows > kMostShapeRows ? kTooManyPlaces : "";
}

}  // namespace fettle
