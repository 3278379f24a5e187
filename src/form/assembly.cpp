#include "form/assembly.h"

#include <algorithm>

#include "base/assertion.h"

namespace fettle {
namespace {

std::size_t direction_in(const std::vector<Direction>& directions, const Direction& wanted) {
  const auto found = std::find_if(directions.begin(), directions.end(), [&](const Direction& each) {
    return each.id == wanted.id && each.angle_degrees == wanted.angle_degrees;
  });
  return static_cast<std::size_t>(found - directions.begin());
}

void add_directions(const Layout& from, Layout& to) {
  for (const Direction& each : from.directions) {
    if (direction_in(to.directions, each) == to.directions.size()) to.directions.push_back(each);
  }
}

void add_stations(const Layout& from, const std::string& member, Layout& to) {
  for (Station station : from.stations) {
    station.member = member;
    to.stations.push_back(std::move(station));
    for (const Direction& direction : to.directions) {
      to.absent.push_back(direction_in(from.directions, direction) == from.directions.size());
    }
  }
}

struct Lender {
  const PartEstimate* estimate;
  const GroupEstimate* group;
};

std::optional<Lender> lender(const std::string& part, const std::vector<GroupEstimate>& groups) {
  for (const GroupEstimate& group : groups) {
    for (const PartEstimate& each : group.parts) {
      if (each.part == part) return Lender{&each, &group};
    }
  }
  return std::nullopt;
}

/// The terms as the sources of another group count them.
std::vector<ErrorTerm> moved(const std::vector<ErrorTerm>& terms, const std::vector<ErrorSource>& from, std::vector<ErrorSource>& to) {
  std::vector<ErrorTerm> out;
  for (const ErrorTerm& term : terms) out.push_back({source_index(to, from[term.source]), term.coefficient});
  std::sort(out.begin(), out.end(), [](const auto& a, const auto& b) { return a.source < b.source; });
  return out;
}

/// What stands at `cell` of the member, at its cell of the assembly.
void borrow(const Lender& from, const Layout& layout, const std::string& role, const Layout& assembled, std::vector<ErrorSource>& sources,
            PartEstimate& to) {
  for (const auto& place : from.estimate->places) {
    if (!place) continue;
    const Station& station = layout.stations[place->cell / layout.directions.size()];
    const auto at = std::find_if(assembled.stations.begin(), assembled.stations.end(),
                                 [&](const Station& each) { return each.member == role && each.id == station.id; });
    FETTLE_ASSERT(at != assembled.stations.end(), role + " " + station.id);
    const std::size_t direction = direction_in(assembled.directions, layout.directions[place->cell % layout.directions.size()]);
    const std::size_t cell = assembled.cell(static_cast<std::size_t>(at - assembled.stations.begin()), direction);
    to.places[cell] = place;
    to.places[cell]->cell = cell;
    to.places[cell]->terms = moved(place->terms, from.group->sources, sources);
  }
}

}  // namespace

Layout assembly_layout(const Layout& own, const Part& part, const std::vector<const PartOnBench*>& members) {
  Layout out;
  add_directions(own, out);
  for (const PartOnBench* member : members) add_directions(member->layout, out);
  add_stations(own, {}, out);
  for (std::size_t m = 0; m < members.size(); ++m) {
    FETTLE_ASSERT(!members[m]->part.members, part.id);
    add_stations(members[m]->layout, (*part.members)[m].role, out);
  }
  return out;
}

void borrow_places(const std::vector<PartOnBench>& parts, std::vector<GroupEstimate>& groups) {
  for (GroupEstimate& group : groups) {
    for (PartEstimate& estimate : group.parts) {
      const PartOnBench* assembly = find_part(parts, estimate.part);
      if (!assembly->part.members) continue;
      for (const Member& member : *assembly->part.members) {
        const PartOnBench* part = find_part(parts, member.part);
        if (const auto from = lender(member.part, groups)) {
          borrow(*from, part->layout, member.role, assembly->layout, group.sources, estimate);
        }
      }
    }
  }
}

}  // namespace fettle
