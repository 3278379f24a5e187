#include "form/shape_estimate.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "form/outside_word.h"
#include "form/shape_misfit.h"
#include "form/shape_take.h"
#include "numeric/elementary.h"

namespace fettle {
namespace {

constexpr double kOddPart = 0.02;  // share of parts that are unlike their group
constexpr std::size_t kMostNamed = 12;
/// Beyond these a group would take minutes: nobody reads so many places by hand.
constexpr std::size_t kMostCells = 144;
constexpr std::size_t kMostRows = 288;
/// Past this a group of unknown step is taken to stand at a step of its own.
constexpr double kOtherStepUm = 150.0;

/// Parts that are estimated together.
struct Team {
  std::vector<const PartOnBench*> parts;
  ShapeFreedom freedom = ShapeFreedom::usual;  ///< of a part that left its group the level is free
  SizeSet set;  ///< what was read on them
  std::shared_ptr<const TakenGroup> taken;
  std::vector<Message> said;
};

std::vector<std::string> ids_of(const std::vector<const PartOnBench*>& parts) {
  std::vector<std::string> out;
  for (const PartOnBench* part : parts) out.push_back(part->part.id);
  return out;
}

/// A worn part of a kind with a pattern of wear, read at one place at least.
bool may_be_modelled(const PartOnBench& part, const SizeSet& set) {
  if (part.wear == WearPattern::none || part.part.condition != Condition::worn) return false;
  return std::any_of(set.sizes.begin(), set.sizes.end(), [&](const Size& size) { return size.part == part.part.id; });
}

/// Rows that the part would bring: places times settings they were read under.
std::size_t rows_of(const PartOnBench& part, const SizeSet& set) {
  std::set<std::pair<std::size_t, std::string>> rows;
  for (const Size& size : set.sizes) {
    if (size.part == part.part.id) rows.emplace(size.cell, size.setting);
  }
  return rows.size();
}

bool goes_through_the_model(const PartOnBench& part, const SizeSet& set) {
  return may_be_modelled(part, set) && part.layout.cells() <= kMostCells && rows_of(part, set) <= kMostRows;
}

bool same_step(const Step& a, const Step& b) {
  return a.kind == b.kind && exact_length(a.offset) == exact_length(b.offset);
}

class Estimator {
 public:
  Estimator(const std::vector<PartOnBench>& parts, const SizeSet& set, const std::map<std::string, MadeTo>& made, ShapeMemory& memory)
      : parts_(parts), set_(set), made_(made), memory_(memory) {}

  std::vector<GroupEstimate> run() {
    make_teams();
    for (std::size_t t = 0; t < teams_.size(); ++t) settle(t);  // parts that leave are put at the end
    exchange();
    std::vector<GroupEstimate> out;
    for (Team& team : teams_) out.push_back(finish(team));
    add_plain(out);
    return out;
  }

 private:
  void make_teams() {
    for (const PartOnBench& part : parts_) {
      if (!goes_through_the_model(part, set_)) continue;
      const auto found = std::find_if(teams_.begin(), teams_.end(), [&](const Team& team) {
        const Part& first = team.parts.front()->part;
        return first.kind == part.part.kind && same_step(first.step, part.part.step) && team.parts.front()->layout == part.layout;
      });
      if (found == teams_.end()) {
        teams_.push_back({});
        teams_.back().parts.push_back(&part);
      } else {
        found->parts.push_back(&part);
      }
    }
    for (Team& team : teams_) team.set = sizes_of(set_, ids_of(team.parts));
  }

  /// The least worn place that was read: where the level of the group shows best.
  [[nodiscard]] double least_worn_mm(const Team& team) const {
    const PartOnBench& first = *team.parts.front();
    const double sign = first.feature == Feature::inside ? 1.0 : -1.0;
    std::vector<double> by_part;
    for (const PartOnBench* part : team.parts) {
      double least = 1e300;
      for (const Size& size : team.set.sizes) {
        if (size.part == part->part.id) least = std::min(least, sign * size.estimate);
      }
      by_part.push_back(least);
    }
    std::sort(by_part.begin(), by_part.end());
    return sign * by_part[by_part.size() / 2];
  }

  struct Known {
    ShapeKnowledge knowledge;
    ShapeOrigin origin;
  };

  [[nodiscard]] Known know(const Team& team) const {
    const PartOnBench& first = *team.parts.front();
    const Layout& layout = first.layout;
    Known out{{first.wear, station_heights(layout), {}, {}, false, 0.0, std::nullopt, SizeHistory::stated},
              {0.0, first.feature == Feature::inside ? 1.0 : -1.0}};
    for (const Station& station : layout.stations) out.knowledge.wears.push_back(station.role != StationRole::reference);
    for (const Direction& direction : layout.directions) out.knowledge.angle_degrees.push_back(direction.angle_degrees.to_double());
    std::set<std::size_t> directions;
    for (const Size& size : team.set.sizes) directions.insert(size.cell % layout.directions.size());
    out.knowledge.three_directions = directions.size() > 2;
    place_level(team, out);
    return out;
  }

  void place_level(const Team& team, Known& known) const {
    const Part& part = team.parts.front()->part;
    const auto found = made_.find(part.kind);
    const MadeTo made = found == made_.end() ? MadeTo{} : found->second;
    const double step_mm = exact_length(part.step.offset).value_or(Length()).millimetres();
    const double least = least_worn_mm(team);
    if (made.smallest && made.largest && *made.smallest < *made.largest) {
      const double low = made.smallest->millimetres();
      const double high = made.largest->millimetres();
      known.origin.base_mm = (low + high) / 2.0 + step_mm;
      known.knowledge.tolerance_um = (high - low) * 1000.0;
    } else {
      known.origin.base_mm = made.standard ? made.standard->millimetres() + step_mm : least;
    }
    if (part.step.kind == StepKind::unknown) {
      known.knowledge.history = SizeHistory::unknown;
      if (std::abs(known.origin.to_um(least)) > kOtherStepUm) {
        known.origin.base_mm = least;
        known.knowledge.tolerance_um.reset();
      }
    }
  }

  void fit(Team& team, const std::vector<ErrorSource>& named, const OutsideWord& heard) {
    std::vector<std::size_t> columns;
    for (const ErrorSource& each : named) columns.push_back(source_index(team.set.sources, each));
    const Known known = know(team);
    ShapeRows rows = shape_rows(ids_of(team.parts), team.set, known.origin, columns);
    hear(rows, heard);
    team.taken = memory_.of({ids_of(team.parts), known.knowledge, known.origin, std::move(rows), team.set.sources, team.freedom}, take_readings);
  }

  /// Fits a team; a part that is unlike the others, and that the readings are better explained without, goes to a team of its own.
  void settle(std::size_t index) {
    for (;;) {
      fit(teams_[index], {}, {});
      if (!part_leaves(index)) return;
    }
  }

  /// ln of the evidence of a team as `fit` left it.
  [[nodiscard]] double evidence(const Team& team) const {
    const Known known = know(team);
    const ShapeRows rows = shape_rows(ids_of(team.parts), team.set, known.origin, {});
    return evidence_of(known.knowledge, rows, team.freedom);
  }

  bool part_leaves(std::size_t index) {
    const Team& team = teams_[index];
    if (team.parts.size() < 3) return false;  // of two, neither is the odd one
    const std::vector<double>& part_tail = team.taken->part_tail;
    const auto worst = std::min_element(part_tail.begin(), part_tail.end());
    if (*worst >= kStrangePartTail) return false;
    const auto b = worst - part_tail.begin();
    Team alone;
    alone.parts.push_back(team.parts[static_cast<std::size_t>(b)]);
    alone.freedom = ShapeFreedom::loose_level;
    alone.set = sizes_of(set_, ids_of(alone.parts));
    Team rest;
    rest.parts = team.parts;
    rest.parts.erase(rest.parts.begin() + b);
    rest.set = sizes_of(set_, ids_of(rest.parts));
    if (evidence(rest) + evidence(alone) + natural_log(kOddPart) < evidence(team)) return false;
    const Argument part = verbatim("part", alone.parts.front()->part.id);
    alone.said.push_back({"shape.part_apart", {part}});
    rest.said = team.said;
    rest.said.push_back({"shape.without_part", {part}});
    teams_[index] = std::move(rest);
    teams_.push_back(std::move(alone));
    return true;
  }

  /// Sources of more than one team: those of most weight, in the order of their ids.
  [[nodiscard]] std::vector<ErrorSource> shared_between_teams() const {
    struct Use {
      std::set<std::size_t> teams;
      double weight = 0.0;
      const ErrorSource* source = nullptr;
    };
    std::map<std::string, Use> users;
    for (std::size_t t = 0; t < teams_.size(); ++t) {
      if (teams_[t].taken->fits_nothing) continue;
      for (const auto& rows : teams_[t].taken->group.rows.rows) {
        for (const ShapeRow& row : rows) {
          for (const ErrorTerm& term : row.terms) {
            const ErrorSource& source = teams_[t].set.sources[term.source];
            if (source.scope == ErrorScope::reading) continue;
            Use& use = users[source.id];
            use.teams.insert(t);
            use.source = &source;
            const double mm = term.coefficient * source.standard_uncertainty;
            use.weight = std::max(use.weight, mm * mm);
          }
        }
      }
    }
    std::vector<std::pair<double, const ErrorSource*>> shared;
    for (const auto& [id, use] : users) {
      if (use.teams.size() > 1 && use.weight > 0.0) shared.emplace_back(-use.weight, use.source);
    }
    std::stable_sort(shared.begin(), shared.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    std::vector<ErrorSource> out;
    for (std::size_t k = 0; k < shared.size() && k < kMostNamed; ++k) out.push_back(*shared[k].second);
    std::sort(out.begin(), out.end(), [](const auto& a, const auto& b) { return a.id < b.id; });
    return out;
  }

  /// What each team says of the sources they share is told to all others; then each is fitted once more.
  void exchange() {
    const std::vector<ErrorSource> named = shared_between_teams();
    if (named.empty()) return;
    std::vector<OutsideWord> words(teams_.size());
    for (std::size_t t = 0; t < teams_.size(); ++t) {
      if (teams_[t].taken->fits_nothing) continue;
      fit(teams_[t], named, {});
      words[t] = say(teams_[t].taken->group.nodes, teams_[t].taken->group.rows, {});
    }
    for (std::size_t t = 0; t < teams_.size(); ++t) {
      if (teams_[t].taken->fits_nothing) continue;
      std::vector<OutsideWord> others = words;
      others[t] = {};
      fit(teams_[t], named, together(others, named.size()));
    }
  }

  GroupEstimate finish(Team& team) const {
    std::vector<PartOnBench> parts;
    for (const PartOnBench* part : team.parts) parts.push_back(*part);
    GroupEstimate out = plain_estimate(parts.front().part.kind, parts, set_);
    out.said = std::move(team.said);
    if (team.taken->set_free) out.said.push_back({"shape.set_free", {}});
    if (team.taken->fits_nothing) {
      out.said.push_back({"shape.gave_up", {}});
      return out;
    }
    const ShapeGroup& group = team.taken->group;
    out.model = EstimateModel::shape;
    out.why = {group.parts.size() > 1 ? "why.shape_model" : "why.shape_model_alone",
               {count("parts", static_cast<std::int64_t>(group.parts.size()))}};
    out.shape = std::shared_ptr<const ShapeGroup>(team.taken, &group);
    return out;
  }

  /// Everything that does not go through the model, by kind.
  void add_plain(std::vector<GroupEstimate>& out) const {
    std::vector<std::string> kinds;
    for (const PartOnBench& part : parts_) {
      if (std::find(kinds.begin(), kinds.end(), part.part.kind) == kinds.end()) kinds.push_back(part.part.kind);
    }
    for (const std::string& kind : kinds) {
      std::vector<PartOnBench> rest;
      for (const PartOnBench& part : parts_) {
        if (part.part.kind == kind && !goes_through_the_model(part, set_)) rest.push_back(part);
      }
      if (rest.empty()) continue;
      out.push_back(plain_estimate(kind, rest, set_));
      const bool too_many = std::any_of(rest.begin(), rest.end(), [&](const auto& each) { return may_be_modelled(each, set_); });
      if (too_many) {
        out.back().said.push_back({"shape.too_many_places", {count("cells", static_cast<std::int64_t>(kMostCells)),
                                                             count("rows", static_cast<std::int64_t>(kMostRows))}});
      }
    }
  }

  const std::vector<PartOnBench>& parts_;
  const SizeSet& set_;
  const std::map<std::string, MadeTo>& made_;
  ShapeMemory& memory_;
  std::vector<Team> teams_;
};

}  // namespace

std::vector<GroupEstimate> estimate_groups(const std::vector<PartOnBench>& parts, const SizeSet& set,
                                           const std::map<std::string, MadeTo>& made, ShapeMemory& memory) {
  return Estimator(parts, set, made, memory).run();
}

}  // namespace fettle
