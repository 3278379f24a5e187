#include "form/open_places.h"

#include <algorithm>

namespace fettle {

OpenPlaces counted_places(const Layout& layout, std::string_view member) {
  OpenPlaces out;
  for (std::size_t i = 0; i < layout.stations.size(); ++i) {
    if (layout.stations[i].counted && layout.stations[i].member == member) out.stations.push_back(i);
  }
  for (std::size_t i = 0; i < layout.directions.size(); ++i) {
    const bool there = std::any_of(out.stations.begin(), out.stations.end(), [&](std::size_t station) { return layout.there(layout.cell(station, i)); });
    if (layout.directions[i].counted && there) out.directions.push_back(i);
  }
  return out;
}

OpenPlaces narrowed(const OpenPlaces& open, const Expression& at, const Layout& layout) {
  OpenPlaces out;
  for (std::size_t station : open.stations) {
    const StationRole role = layout.stations[station].role;
    const bool of_role = at.roles.empty() || std::find(at.roles.begin(), at.roles.end(), role) != at.roles.end();
    const bool of_group = at.groups.empty() || std::find(at.groups.begin(), at.groups.end(), layout.stations[station].group.value_or("")) != at.groups.end();
    if (of_role && of_group) {
      out.stations.push_back(station);
    }
  }
  for (std::size_t direction : open.directions) {
    const bool named = std::any_of(at.axes.begin(), at.axes.end(), [&](Axis axis) {
      return layout.directions[direction].angle_degrees == angle_of(axis);
    });
    if (at.axes.empty() || named) out.directions.push_back(direction);
  }
  return out;
}

std::vector<OpenPlaces> split(const OpenPlaces& open, Over over) {
  std::vector<OpenPlaces> out;
  switch (over) {
    case Over::heights:
      for (std::size_t station : open.stations) out.push_back({{station}, open.directions});
      break;
    case Over::directions:
      for (std::size_t direction : open.directions) out.push_back({open.stations, {direction}});
      break;
    case Over::all:
      for (std::size_t station : open.stations) {
        for (std::size_t direction : open.directions) out.push_back({{station}, {direction}});
      }
      break;
  }
  return out;
}

void walk(const Expression& expression, const OpenPlaces& open, const Layout& layout,
          const std::function<void(const Expression&, const OpenPlaces&)>& visit) {
  switch (expression.operation) {
    case Operation::size:
    case Operation::per_span:
    case Operation::amplitude: visit(expression, open); return;
    case Operation::vector_difference:
    case Operation::neighbour_rule:
    case Operation::tilt_along:
    case Operation::tilt_across:
    case Operation::twist: visit(expression, open); return;
    case Operation::off_plane: visit(expression, counted_places(layout)); return;
    case Operation::place: {
      const auto station = layout.find_station(expression.member);
      OpenPlaces here = counted_places(layout);
      here.stations.clear();
      if (station) here.stations.push_back(*station);
      visit(expression, here);
      return;
    }
    case Operation::standard:
    case Operation::nominal:
    case Operation::number:
    case Operation::length: return;
    case Operation::of: walk(expression.parts[0], counted_places(layout, expression.member), layout, visit); return;
    case Operation::at: walk(expression.parts[0], narrowed(open, expression, layout), layout, visit); return;
    case Operation::max:
    case Operation::min:
    case Operation::mean:
    case Operation::range:
      for (const OpenPlaces& part : split(open, expression.over)) walk(expression.parts[0], part, layout, visit);
      return;
    case Operation::slope:
      visit(expression, open);
      walk(expression.parts[0], open, layout, visit);
      return;
    case Operation::difference:
    case Operation::apart:
    case Operation::cosine:
    case Operation::arccosine:
    case Operation::factor:
    case Operation::sum:
    case Operation::product:
    case Operation::quotient:
    case Operation::ratio:
      for (const Expression& part : expression.parts) walk(part, open, layout, visit);
      return;
  }
}

}  // namespace fettle
