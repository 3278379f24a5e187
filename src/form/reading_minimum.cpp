#include "form/reading_minimum.h"

#include <algorithm>
#include <set>

#include "catalogue/catalogue.h"
#include "form/open_places.h"

namespace fettle {
namespace {

Argument definition_word(const Definition& definition) { return word("definition", "definition." + definition.id); }

/// Roles and axes that any `at` of the expression names.
void collect_members(const Expression& expression, std::set<std::string>& members) {
  if (expression.operation == Operation::of) members.insert(expression.member);
  for (const Expression& part : expression.parts) collect_members(part, members);
}

void check_members(const Definition& definition, const Expression& expression, const Layout& layout, Problems& problems) {
  std::set<std::string> members;
  collect_members(expression, members);
  for (const std::string& member : members) {
    const bool there = std::any_of(layout.stations.begin(), layout.stations.end(), [&](const Station& each) { return each.member == member; });
    if (!there) problems.push_back(Problem{"form.needs_member", {}, {definition_word(definition), word("member", "member." + member)}});
  }
}

void collect_names(const Expression& expression, std::set<StationRole>& roles, std::set<Axis>& axes) {
  roles.insert(expression.roles.begin(), expression.roles.end());
  axes.insert(expression.axes.begin(), expression.axes.end());
  for (const Expression& part : expression.parts) collect_names(part, roles, axes);
}

void check_names(const Definition& definition, const Expression& expression, const Layout& layout, Problems& problems) {
  std::set<StationRole> roles;
  std::set<Axis> axes;
  collect_names(expression, roles, axes);
  for (StationRole role : roles) {
    if (!layout.counts(role)) {
      problems.push_back(Problem{"form.needs_role", {},
                                 {definition_word(definition), word("role", "station." + std::string(role_name(role)))}});
    }
  }
  for (Axis axis : axes) {
    if (!layout.counts(axis)) {
      problems.push_back(Problem{"form.needs_axis", {},
                                 {definition_word(definition), word("axis", "direction." + std::string(axis_name(axis)))}});
    }
  }
}

bool depths_known(const Expression& expression, const Layout& layout) {
  bool known = true;
  walk(expression, counted_places(layout), layout, [&](const Expression& at, const OpenPlaces& open) {
    if (at.operation == Operation::tilt_along || at.operation == Operation::tilt_across || at.operation == Operation::off_plane) {
      for (const std::size_t station : open.stations) known = known && layout.stations[station].depth;
      for (const std::size_t direction : open.directions) known = known && layout.directions[direction].offset;
      return;
    }
    if (at.operation == Operation::per_span) {
      for (const std::size_t station : open.stations) known = known && layout.stations[station].span && layout.stations[station].span->counts() > 0;
      return;
    }
    if (at.operation != Operation::slope || open.stations.empty()) return;
    const auto& first = layout.stations[open.stations.front()].depth;
    const auto& last = layout.stations[open.stations.back()].depth;
    if (!first || !last || *last <= *first) known = false;
  });
  return known;
}

/// How many of `groups` hold at least `least` entering cells.
int full_groups(const std::vector<std::vector<std::size_t>>& groups, const std::vector<bool>& entering, int least) {
  int full = 0;
  for (const auto& cells : groups) {
    int here = 0;
    for (std::size_t cell : cells) here += entering[cell] ? 1 : 0;
    if (here >= least) ++full;
  }
  return full;
}

std::vector<std::vector<std::size_t>> by_station(const Layout& layout, const std::vector<std::size_t>& cells) {
  std::vector<std::vector<std::size_t>> out(layout.stations.size());
  for (std::size_t cell : cells) out[cell / layout.directions.size()].push_back(cell);
  return out;
}

std::vector<std::vector<std::size_t>> by_direction(const Layout& layout, const std::vector<std::size_t>& cells) {
  std::vector<std::vector<std::size_t>> out(layout.directions.size());
  for (std::size_t cell : cells) out[cell % layout.directions.size()].push_back(cell);
  return out;
}

/// "top, thrust; bottom, pin": what was asked for and not read.
Argument lacking(const PartGrid& grid, const std::vector<std::size_t>& asked, const std::vector<bool>& entering) {
  std::vector<Message> out;
  for (std::size_t cell : asked) {
    if (entering[cell] || grid.read[cell]) continue;
    const Station& station = grid.layout.stations[cell / grid.layout.directions.size()];
    const Direction& direction = grid.layout.directions[cell % grid.layout.directions.size()];
    std::vector<Argument> named = {station_argument("station", station.id), direction_argument("direction", direction.id)};
    if (!station.member.empty()) named.push_back(word("member", "member." + station.member));
    out.push_back({station.member.empty() ? "form.place" : "form.place_of_member", std::move(named)});
  }
  // Everything that was asked for is read and it is not enough: the layout itself is too small.
  if (out.empty()) out.push_back({"form.more_places", {}});
  return list("missing", std::move(out));
}

/// The first counted station, which a size must be read at: wear is greatest there.
std::optional<std::size_t> first_station(const Layout& layout) {
  for (std::size_t i = 0; i < layout.stations.size(); ++i) {
    if (layout.stations[i].counted) return i;
  }
  return std::nullopt;
}

}  // namespace

Problems unmet_needs(const Definition& definition, const PartGrid& grid) {
  Problems problems;
  if (!definition.applies(grid.feature)) {
    problems.push_back(Problem{"form.not_applicable", {},
                               {definition_word(definition), word("feature", "feature." + std::string(feature_name(grid.feature)))}});
    return problems;
  }
  if (!definition.judged()) {
    std::vector<Message> needs;
    for (const std::string& need : definition.needs) needs.push_back({"need." + need, {}});
    problems.push_back(Problem{"form.needs_more", {}, {definition_word(definition), list("needs", std::move(needs))}});
    return problems;
  }
  const Expression& expression = definition.reckoning(grid.feature)->expression;
  check_members(definition, expression, grid.layout, problems);
  check_names(definition, expression, grid.layout, problems);
  if (definition.uses(Input::standard) && (!grid.given.standard || *grid.given.standard <= Length())) {
    problems.push_back(Problem{"form.needs_standard", {}, {definition_word(definition)}});
  }
  if (definition.uses(Input::nominal) && (!grid.given.nominal || *grid.given.nominal <= Length())) {
    problems.push_back(Problem{"form.needs_nominal", {}, {definition_word(definition)}});
  }
  if (definition.uses(Input::depths) && !depths_known(expression, grid.layout)) {
    problems.push_back(Problem{"form.needs_depths", {}, {definition_word(definition)}});
  }
  return problems;
}

std::vector<std::size_t> asked_cells(const Definition& definition, const PartGrid& grid) {
  std::set<std::size_t> cells;
  const Expression& expression = definition.reckoning(grid.feature)->expression;
  walk(expression, counted_places(grid.layout), grid.layout, [&](const Expression& at, const OpenPlaces& open) {
    if (at.operation == Operation::slope || open.stations.empty() || open.directions.empty()) return;
    const bool corners = at.operation == Operation::twist;  // which looks at nothing between them
    for (std::size_t station : open.stations) {
      if (corners && station != open.stations.front() && station != open.stations.back()) continue;
      for (std::size_t direction : open.directions) {
        if (corners && direction != open.directions.front() && direction != open.directions.back()) continue;
        const std::size_t cell = grid.layout.cell(station, direction);
        if (grid.layout.there(cell)) cells.insert(cell);
      }
    }
  });
  return {cells.begin(), cells.end()};
}

std::vector<bool> entering_cells(const Definition& definition, const PartGrid& grid) {
  const auto asked = asked_cells(definition, grid);
  std::vector<bool> entering(grid.layout.cells(), false);
  for (std::size_t cell : asked) entering[cell] = grid.read[cell];
  if (!definition.whole_directions) return entering;
  for (const auto& cells : by_direction(grid.layout, asked)) {
    const bool whole = std::all_of(cells.begin(), cells.end(), [&](std::size_t cell) { return grid.read[cell]; });
    if (whole) continue;
    for (std::size_t cell : cells) entering[cell] = false;
  }
  return entering;
}

Problems minimum_problems(const Definition& definition, const PartGrid& grid, const std::vector<bool>& entering) {
  const auto asked = asked_cells(definition, grid);
  const Minimum& least = definition.minimum;
  const std::vector<Argument> arguments{definition_word(definition), count("heights", least.heights),
                                        count("directions", least.directions), lacking(grid, asked, entering)};
  Problems problems;
  switch (definition.family) {
    case Family::out_of_round:
      if (full_groups(by_station(grid.layout, asked), entering, least.directions) < least.heights) {
        problems.push_back(Problem{"form.needs_directions", {}, arguments});
      }
      break;
    case Family::taper:
    case Family::shape:
      if (full_groups(by_direction(grid.layout, asked), entering, least.heights) < least.directions) {
        problems.push_back(Problem{"form.needs_heights", {}, arguments});
      }
      break;
    case Family::size:
    case Family::wear: {
      const auto first = first_station(grid.layout);
      const auto stations = by_station(grid.layout, asked);
      if (!first || full_groups({stations[*first]}, entering, 1) == 0) {
        problems.push_back(Problem{"form.needs_first", {}, arguments});
      }
      if (full_groups(stations, entering, least.directions) < least.heights) {
        problems.push_back(Problem{"form.needs_directions", {}, arguments});
      }
      break;
    }
    case Family::clearance:
    case Family::figure: break;  // expand() says so where nothing comes of it
  }
  return problems;
}

Problem places_lacking(const Definition& definition, const PartGrid& grid, const std::vector<bool>& entering) {
  return Problem{"form.needs_places", {}, {definition_word(definition), lacking(grid, asked_cells(definition, grid), entering)}};
}

}  // namespace fettle
