#include "form/shape_estimate.h"

#include <algorithm>
#include <set>

#include "form/outside_word.h"
#include "form/plain_reason.h"
#include "form/shape_known.h"
#include "form/shape_misfit.h"
#include "form/shape_take.h"
#include "numeric/elementary.h"

namespace fettle {
namespace {

constexpr double kOddPart = 0.02;  // share of parts that are unlike their group
constexpr std::size_t kMostNamed = 12;
/// What moves no reading of a group by so much, the group neither tells of nor is told.
constexpr double kWorthTellingUm = 0.2;

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

/// How wear of the pattern runs, in words.
const char* profile_word(WearPattern pattern) {
  switch (pattern) {
    case WearPattern::none: return "";
    case WearPattern::from_first: return "profile.from_first";
    case WearPattern::both_ends: return "profile.both_ends";
    case WearPattern::even: return "profile.even";
  }
  return "";
}

/// The groups of parts that go through the model, of one job.
class Estimator {
 public:
  Estimator(const ShapeInput& from, ShapeMemory& memory) : from_(from), set_{from.sizes, from.sources, {}}, memory_(memory) {}

  ShapeOutput run() {
    make_teams();
    named_ = shared_between_teams();
    for (std::size_t t = 0; t < teams_.size(); ++t) settle(t);  // parts that leave are put at the end
    exchange();
    ShapeOutput out;
    for (Team& team : teams_) out.groups.push_back(finish(team));
    return out;
  }

 private:
  void make_teams() {
    for (const PartOnBench& part : from_.parts) {
      const auto found = std::find_if(teams_.begin(), teams_.end(), [&](const Team& team) {
        return estimated_together(*team.parts.front(), part);
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

  /// The rows of a team, the sources that it shares with others in columns of their own, once it has heard what the others say of them.
  [[nodiscard]] GroupReadings readings_of(Team& team, const OutsideWord& heard) const {
    std::vector<std::size_t> columns;
    for (const ErrorSource& each : named_) columns.push_back(source_index(team.set.sources, each));
    const KnownGroup known = know_group(team.parts, team.set, from_.made);
    ShapeRows rows = shape_rows(ids_of(team.parts), team.set, known.origin, columns);
    hear(rows, heard);
    return {ids_of(team.parts), known.knowledge, known.origin, std::move(rows), team.set.sources, team.freedom};
  }

  void fit(Team& team, const OutsideWord& heard) { team.taken = memory_.taken.of(readings_of(team, heard), take_readings); }

  /// Fits a team; a part that is unlike the others, and that the readings are better explained without, goes to a team of its own.
  void settle(std::size_t index) {
    for (;;) {
      fit(teams_[index], {});
      if (!part_leaves(index)) return;
    }
  }

  /// ln of the evidence of a team's readings as they stand.
  [[nodiscard]] double evidence(Team& team) {
    return *memory_.evidence.of(readings_of(team, {}), [](const GroupReadings& from) { return evidence_of(from.knowledge, from.rows, from.freedom); });
  }

  bool part_leaves(std::size_t index) {
    Team& team = teams_[index];
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
    if (evidence(rest) + evidence(alone) + natural_log(kOddPart) < team.taken->log_evidence) return false;
    const Argument part = verbatim("part", alone.parts.front()->part.id);
    alone.said.push_back({"shape.part_apart", {part}});
    rest.said = team.said;
    rest.said.push_back({"shape.without_part", {part}});
    teams_[index] = std::move(rest);
    teams_.push_back(std::move(alone));
    return true;
  }

  /// Sources that move more than one team by as much as is worth telling: those of most weight, in the order of their ids.
  [[nodiscard]] std::vector<ErrorSource> shared_between_teams() const {
    struct Use {
      std::set<std::size_t> teams;
      double weight = 0.0;
      const ErrorSource* source = nullptr;
    };
    std::map<std::string, Use> users;
    for (std::size_t t = 0; t < teams_.size(); ++t) {
      if (teams_[t].taken && teams_[t].taken->fits_nothing) continue;
      for (const Size& size : teams_[t].set.sizes) {
        for (const ErrorTerm& term : size.terms) {
          const ErrorSource& source = teams_[t].set.sources[term.source];
          const double mm = std::abs(term.coefficient * source.standard_uncertainty);
          if (source.scope == ErrorScope::reading || mm * 1000.0 < kWorthTellingUm) continue;
          Use& use = users[source.id];
          use.teams.insert(t);
          use.source = &source;
          use.weight = std::max(use.weight, mm * mm);
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

  /// What each team says of the sources they share is told to all others, and those whom it tells something are fitted once more.
  void exchange() {
    const std::vector<ErrorSource> named = shared_between_teams();
    if (named != named_) {  // some part left, or some team fits nothing
      named_ = named;
      for (Team& team : teams_) {
        if (!team.taken->fits_nothing) fit(team, {});
      }
    }
    if (named_.empty()) return;
    std::vector<OutsideWord> words(teams_.size());
    for (std::size_t t = 0; t < teams_.size(); ++t) {
      if (!teams_[t].taken->fits_nothing) words[t] = say(teams_[t].taken->group.nodes, teams_[t].taken->group.rows, {});
    }
    for (std::size_t t = 0; t < teams_.size(); ++t) {
      if (teams_[t].taken->fits_nothing) continue;
      std::vector<OutsideWord> others = words;
      others[t] = {};
      fit(teams_[t], rounded(together(others, named_.size())));
    }
  }

  GroupEstimate finish(Team& team) const {
    std::vector<PartOnBench> parts;
    for (const PartOnBench* part : team.parts) parts.push_back(*part);
    GroupEstimate out = plain_estimate(parts.front().part.kind, parts, team.set);
    out.said = std::move(team.said);
    if (team.taken->set_free) out.said.push_back({"shape.set_free", {}});
    if (team.taken->fits_nothing) {
      out.why = {"why.plainly", {word("reason", "plainly.fits_nothing")}};
      out.said.push_back({"shape.gave_up", {}});
      return out;
    }
    const ShapeGroup& group = team.taken->group;
    out.model = EstimateModel::shape;
    out.why = {group.parts.size() > 1 ? "why.shape_model" : "why.shape_model_alone",
               {count("parts", static_cast<std::int64_t>(group.parts.size())), word("profile", profile_word(group.knowledge.pattern))}};
    out.shape = std::shared_ptr<const ShapeGroup>(team.taken, &group);
    return out;
  }

  const ShapeInput& from_;
  const SizeSet set_;
  ShapeMemory& memory_;
  std::vector<ErrorSource> named_;  ///< what teams tell each other of
  std::vector<Team> teams_;
};

/// A part with why it does not go through the model; empty where it does.
struct Sorted {
  const PartOnBench* part;
  std::string reason;
};

std::vector<Sorted> sorted(const std::vector<PartOnBench>& parts, const SizeSet& set) {
  const std::map<std::string, std::size_t> rows = rows_read(set);
  std::vector<Sorted> out;
  for (const PartOnBench& part : parts) {
    const auto read = rows.find(part.part.id);
    out.push_back({&part, plain_reason(part, read == rows.end() ? 0 : read->second)});
  }
  return out;
}

ShapeInput shape_input(const std::vector<Sorted>& parts, const SizeSet& set, const std::map<std::string, MadeTo>& made) {
  ShapeInput out;
  std::vector<std::string> ids;
  for (const Sorted& each : parts) {
    if (!each.reason.empty()) continue;
    out.parts.push_back(*each.part);
    ids.push_back(each.part->part.id);
    const auto of_kind = made.find(each.part->part.kind);
    if (of_kind != made.end()) out.made.insert(*of_kind);
  }
  SizeSet read = sizes_of(set, ids);
  out.sizes = std::move(read.sizes);
  out.sources = std::move(read.sources);
  return out;
}

/// Everything that does not go through the model, by kind and by why it does not.
void add_plain(const std::vector<Sorted>& parts, const SizeSet& set, std::vector<GroupEstimate>& out) {
  std::set<std::string> kinds;
  for (const Sorted& first : parts) {
    if (!kinds.insert(first.part->part.kind).second) continue;
    std::vector<std::pair<std::string, std::vector<PartOnBench>>> rest;
    for (const Sorted& each : parts) {
      if (each.part->part.kind != first.part->part.kind || each.reason.empty()) continue;
      auto same = std::find_if(rest.begin(), rest.end(), [&](const auto& group) { return group.first == each.reason; });
      if (same == rest.end()) same = rest.insert(rest.end(), {each.reason, {}});
      same->second.push_back(*each.part);
    }
    for (const auto& [reason, alike] : rest) {
      out.push_back(plain_estimate(first.part->part.kind, alike, set));
      out.back().why = {"why.plainly", {word("reason", reason)}};
      if (reason != kTooManyPlaces) continue;
      out.back().said.push_back({"shape.too_many_places", {count("cells", static_cast<std::int64_t>(kMostShapeCells)),
                                                           count("rows", static_cast<std::int64_t>(kMostShapeRows))}});
    }
  }
}

}  // namespace

std::vector<GroupEstimate> estimate_groups(const std::vector<PartOnBench>& parts, const SizeSet& set,
                                           const std::map<std::string, MadeTo>& made, ShapeMemory& memory) {
  const std::vector<Sorted> all = sorted(parts, set);
  std::vector<GroupEstimate> out =
      memory.all.of(shape_input(all, set, made), [&](const ShapeInput& from) { return Estimator(from, memory).run(); })->groups;
  add_plain(all, set, out);
  return out;
}

}  // namespace fettle
