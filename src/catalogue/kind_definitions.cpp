#include "catalogue/kind_definitions.h"

#include <algorithm>

namespace fettle {
namespace {

template <class T>
int counted(const std::vector<T>& places) {
  return static_cast<int>(std::count_if(places.begin(), places.end(), [](const T& each) { return each.counted; }));
}

/// Every role and axis that the expression names is a counted place of the layout.
bool names_are_there(const Expression& expression, const Layout& layout) {
  return std::all_of(expression.roles.begin(), expression.roles.end(), [&](StationRole role) { return layout.counts(role); }) &&
         std::all_of(expression.axes.begin(), expression.axes.end(), [&](Axis axis) { return layout.counts(axis); }) &&
         std::all_of(expression.parts.begin(), expression.parts.end(), [&](const Expression& part) { return names_are_there(part, layout); });
}

bool lengths_are_there(const Layout& layout) {
  return std::all_of(layout.stations.begin(), layout.stations.end(),
                     [](const Station& each) { return !each.counted || each.depth || each.span; });
}

bool places_are_enough(const Definition& definition, const Kind& kind) {
  if (!kind.members.empty()) return true;
  const Layout& layout = kind.layout;
  return counted(layout.stations) >= definition.minimum.heights && counted(layout.directions) >= definition.minimum.directions &&
         names_are_there(definition.reckoning(kind.feature)->expression, layout) &&
         (!definition.uses(Input::depths) || lengths_are_there(layout));
}

}  // namespace

KindDefinitions definitions_for(const Kind& kind, const std::vector<Definition>& definitions) {
  KindDefinitions out;
  for (const Definition& each : definitions) {
    if (!each.judged() || !each.applies(kind.feature) || !each.is_for(kind.id)) continue;
    (places_are_enough(each, kind) ? out.usual : out.with_more_places).push_back(&each);
  }
  return out;
}

}  // namespace fettle
