#include "advice/next_acts.h"

#include <algorithm>
#include <cmath>

#include "advice/settling.h"

namespace fettle {
namespace {

constexpr std::size_t kDraws = 1024;
constexpr std::size_t kMostAgain = 6;
constexpr std::size_t kMostFresh = 8;
constexpr std::size_t kMostTwice = 12;
// Common practice, no source: docs/NUMBERS, "What to read next".
constexpr double kWorthAtAll = 0.1;      // parts that an act has to settle on the average
constexpr double kWorthAMinute = 0.01;   // and in a minute

struct Way {
  ActSort sort;
  VisitPlan plan;
};

const std::vector<Way>& ways() {
  static const std::vector<Way> all = {
      {ActSort::read_again, {VisitSort::same_setting, 1, kMostAgain}},
      {ActSort::set_afresh, {VisitSort::fresh_setting, 1, kMostFresh}},
      {ActSort::set_afresh_twice, {VisitSort::fresh_setting, 2, kMostTwice}},
      {ActSort::other_master, {VisitSort::other_master, 1, kMostFresh}},
      {ActSort::rest_first, {VisitSort::rested, 1, kMostFresh}},
  };
  return all;
}

/// An act with what it explains, all stakes weighed together.
struct Weighed {
  NextAct act;
  double explained;
};

class GroupAdviser {
 public:
  GroupAdviser(const NextInput& input, const GroupEstimate& group, const JudgedGroup& judged)
      : input_(input), group_(group), judged_(judged), own_(sizes_of(input.sizes, ids_of(group))), draws_(drawn()) {
    for (const auto& kept : input.limits) {
      if (kept.value.kind == group.kind) limits_.push_back(kept.value);
    }
    stakes_ = open_parts(judged_, limits_, input.judgement.states, draws_);
    unread_ = unread_parts(judged_, limits_, input.judgement.states, draws_);
    find_setting();
  }

  [[nodiscard]] bool anything_open() const { return !stakes_.empty(); }
  [[nodiscard]] const std::vector<Stake>& stakes() const { return stakes_; }

  [[nodiscard]] const std::vector<Stake>& unread() const { return unread_; }

  /// What was not read is read first: no verdict rests on a forecast.
  [[nodiscard]] AdviceFor advise_to_read_on(const Stake& stake) const {
    AdviceFor out{stake.part, group_.kind, {}, {}, doubt_shares(stake, draws_)};
    const VisitSort sort = closed_ ? VisitSort::fresh_setting : VisitSort::same_setting;
    const Way way{ActSort::read_unread, {sort, 1, draws_.places.front().size(), true}};
    const std::vector<VisitStep> steps = plan_visit(way.plan, draws_, own_, {stake}, {1.0});
    if (!steps.empty()) out.acts.push_back(act_of(way, steps, steps.size(), {stake}));
    return out;
  }

  [[nodiscard]] AdviceFor advise(const std::vector<Stake>& stakes, const std::string& part) const {
    AdviceFor out{part, group_.kind, {}, {}, doubt_shares(stakes.front(), draws_)};
    std::vector<Weighed> all;
    for (const Way& way : ways()) {
      if (auto weighed = weigh(way, stakes)) all.push_back(std::move(*weighed));
    }
    for (Weighed& each : all) mark(each, all, out.doubt);
    std::stable_sort(all.begin(), all.end(), [](const Weighed& a, const Weighed& b) { return rate(a.act) > rate(b.act); });
    for (Weighed& each : all) (each.act.useless ? out.useless : out.acts).push_back(std::move(each.act));
    return out;
  }

 private:
  static double rate(const NextAct& act) { return act.settles / act.minutes; }

  static std::vector<std::string> ids_of(const GroupEstimate& group) {
    std::vector<std::string> out;
    for (const PartEstimate& each : group.parts) out.push_back(each.part);
    return out;
  }

  [[nodiscard]] GroupDraws drawn() const {
    const std::uint64_t seed = input_.judgement.accuracy.seed;
    return group_.shape ? draw_group(*group_.shape, own_, kDraws, seed) : draw_group(group_, kDraws, seed);
  }

  /// The last setting that the group was read under, and what was read under it.
  void find_setting() {
    for (const Kept<Setting>& each : input_.settings) {
      const auto used = [&](const Size& size) { return size.setting == each.value.id; };
      if (!std::any_of(own_.sizes.begin(), own_.sizes.end(), used)) continue;
      setting_ = each.value.id;
      closed_ = each.value.closing_zero.has_value();
    }
    under_last_ = own_;
    under_last_.sizes.clear();
    for (const Size& size : own_.sizes) {
      if (size.setting == setting_) under_last_.sizes.push_back(size);
    }
  }

  [[nodiscard]] bool lengths_hang_on(ErrorScope scope) const {
    for (std::size_t s = 0; s < draws_.sources.size(); ++s) {
      if (!draws_.errors[s].empty() && draws_.sources[s].scope == scope && draws_.sources[s].dimension == Dimension::length) return true;
    }
    return false;
  }

  [[nodiscard]] bool temperature_was_not_taken() const {
    for (std::size_t s = 0; s < draws_.sources.size(); ++s) {
      if (!draws_.errors[s].empty() && of_unknown_temperature(draws_.sources[s])) return true;
    }
    return false;
  }

  /// Whether there is such an act at all: a master that lends its size, a temperature that nobody took.
  [[nodiscard]] bool possible(ActSort sort) const {
    switch (sort) {
      case ActSort::read_unread: return true;
      case ActSort::read_again: return !under_last_.sizes.empty();
      case ActSort::set_afresh:
      case ActSort::set_afresh_twice: return lengths_hang_on(ErrorScope::setting);
      case ActSort::other_master: return lengths_hang_on(ErrorScope::master);
      case ActSort::rest_first: return temperature_was_not_taken();
    }
    return false;
  }

  [[nodiscard]] std::optional<Weighed> weigh(const Way& way, const std::vector<Stake>& stakes) const {
    if (!possible(way.sort)) return std::nullopt;
    std::vector<double> weights;
    for (const Stake& each : stakes) weights.push_back(std::min(each.chance, 1.0 - each.chance));
    const SizeSet& like = way.plan.sort == VisitSort::same_setting ? under_last_ : own_;
    const std::vector<VisitStep> steps = plan_visit(way.plan, draws_, like, stakes, weights);
    if (steps.empty()) return std::nullopt;
    std::size_t best = 0;
    double most = -1.0;
    for (std::size_t k = 0; k < steps.size(); ++k) {
      const double each = settled(stakes, steps[k].explained) / minutes_of(way.plan, k + 1, input_.minutes);
      // Where nothing is settled by so few, all of them are the offer.
      if (each < most) continue;
      most = each;
      best = k;
    }
    Weighed out{act_of(way, steps, best + 1, stakes), 0.0};
    for (std::size_t t = 0; t < stakes.size(); ++t) out.explained += weights[t] * steps[best].explained[t];
    return out;
  }

  [[nodiscard]] double settled(const std::vector<Stake>& stakes, const std::vector<double>& explained) const {
    double sum = 0.0;
    for (std::size_t t = 0; t < stakes.size(); ++t) sum += chance_settled(stakes[t].chance, explained[t], input_.judgement.rule.level.to_double());
    return sum;
  }

  [[nodiscard]] NextAct act_of(const Way& way, const std::vector<VisitStep>& steps, std::size_t count, const std::vector<Stake>& stakes) const {
    NextAct out{way.sort, group_.kind, setting_, {}, minutes_of(way.plan, count, input_.minutes), 0.0, {}, 0.0, std::nullopt};
    if (way.plan.sort == VisitSort::rested) out.waiting = input_.minutes.rest;
    for (const PlaceToRead& each : places_of(steps, count)) {
      const PartOnBench& part = *find_part(input_.parts, draws_.parts[each.part]);
      const Station& station = part.layout.stations[each.cell / part.layout.directions.size()];
      const auto there = [&](const Size& size) { return size.part == part.part.id && size.cell == each.cell; };
      out.places.push_back({part.part.id, each.cell, each.setting, each.times, std::any_of(own_.sizes.begin(), own_.sizes.end(), there),
                            station.role == StationRole::reference});
    }
    for (std::size_t t = 0; t < stakes.size(); ++t) {
      const double settles = chance_settled(stakes[t].chance, steps[count - 1].explained[t], input_.judgement.rule.level.to_double());
      out.settled.push_back({stakes[t].part, stakes[t].chance, settles});
      out.settles += settles;
    }
    return out;
  }

  static const Weighed* find(const std::vector<Weighed>& all, ActSort sort) {
    const auto found = std::find_if(all.begin(), all.end(), [&](const Weighed& each) { return each.act.sort == sort; });
    return found == all.end() ? nullptr : &*found;
  }

  void mark(Weighed& each, const std::vector<Weighed>& all, const DoubtShares& doubt) const {
    // Which of two acts tells more counts here, not which is quicker: what a quick one cannot reach stays in doubt however often it is done.
    const auto behind = [&](ActSort sort) {
      const Weighed* other = find(all, sort);
      return other != nullptr && other->explained > each.explained && other->act.settles > each.act.settles;
    };
    const bool master = doubt.largest() == DoubtOf::master;
    const bool setting = doubt.largest() == DoubtOf::setting;
    if (each.act.sort == ActSort::read_again && setting && behind(ActSort::set_afresh)) {
      each.act.useless = WhyUseless::setting_in_doubt;
    } else if ((each.act.sort == ActSort::read_again || each.act.sort == ActSort::set_afresh || each.act.sort == ActSort::set_afresh_twice) && master &&
               behind(ActSort::other_master)) {
      each.act.useless = WhyUseless::master_in_doubt;
    } else if (each.act.sort == ActSort::read_again && closed_) {
      each.act.useless = WhyUseless::closed;
    } else if (each.act.settles < kWorthAtAll || rate(each.act) < kWorthAMinute) {
      each.act.useless = WhyUseless::too_little;
    } else if (std::any_of(all.begin(), all.end(), [&](const Weighed& other) {
                 return !other.act.useless && other.act.minutes < each.act.minutes && other.act.settles >= each.act.settles &&
                        (other.act.sort != ActSort::read_again || !closed_);
               })) {
      each.act.useless = WhyUseless::slower;
    }
  }

  const NextInput& input_;
  const GroupEstimate& group_;
  const JudgedGroup& judged_;
  SizeSet own_;
  GroupDraws draws_;
  std::vector<Limit> limits_;
  std::vector<Stake> stakes_;
  std::vector<Stake> unread_;
  std::string setting_;
  bool closed_ = false;
  SizeSet under_last_;
};

double best_rate(const AdviceFor& advice) {
  return advice.acts.empty() ? 0.0 : advice.acts.front().settles / advice.acts.front().minutes;
}

bool is_in_state(const NextInput& input, const std::string& part, StateWord word) {
  const auto& states = input.judgement.states;
  return std::any_of(states.begin(), states.end(), [&](const PartState& each) { return each.part == part && each.word == word; });
}

const Stake* stake_of(const std::vector<Stake>& stakes, const std::string& part) {
  const auto found = std::find_if(stakes.begin(), stakes.end(), [&](const Stake& each) { return each.part == part; });
  return found == stakes.end() ? nullptr : &*found;
}

}  // namespace

Advice next_acts(const NextInput& input) {
  Advice out;
  for (std::size_t g = 0; g < input.groups.size(); ++g) {
    const GroupEstimate& group = input.groups[g];
    const bool open = std::any_of(group.parts.begin(), group.parts.end(), [&](const PartEstimate& each) {
      return is_in_state(input, each.part, StateWord::too_close) || (group.shape && is_in_state(input, each.part, StateWord::not_judged));
    });
    if (!open) continue;
    const GroupAdviser adviser(input, group, *input.judgement.groups[g]);
    for (const PartEstimate& each : group.parts) {
      if (const Stake* stake = stake_of(adviser.stakes(), each.part)) {
        out.parts.push_back(adviser.advise({*stake}, each.part));
      } else if (const Stake* unread = stake_of(adviser.unread(), each.part)) {
        out.parts.push_back(adviser.advise_to_read_on(*unread));
      } else if (is_in_state(input, each.part, StateWord::too_close)) {
        out.not_worked_out.push_back(each.part);
      }
    }
    if (adviser.anything_open()) out.groups.push_back(adviser.advise(adviser.stakes(), ""));
  }
  std::stable_sort(out.groups.begin(), out.groups.end(), [](const AdviceFor& a, const AdviceFor& b) { return best_rate(a) > best_rate(b); });
  return out;
}

std::string_view act_sort_name(ActSort sort) {
  switch (sort) {
    case ActSort::read_unread: return "read-unread";
    case ActSort::read_again: return "read-again";
    case ActSort::set_afresh: return "set-afresh";
    case ActSort::set_afresh_twice: return "set-afresh-twice";
    case ActSort::other_master: return "other-master";
    case ActSort::rest_first: return "rest-first";
  }
  return "";
}

std::string_view useless_name(WhyUseless why) {
  switch (why) {
    case WhyUseless::closed: return "closed";
    case WhyUseless::setting_in_doubt: return "setting-in-doubt";
    case WhyUseless::master_in_doubt: return "master-in-doubt";
    case WhyUseless::too_little: return "too-little";
    case WhyUseless::slower: return "slower";
  }
  return "";
}

std::string_view doubt_name(DoubtOf doubt) {
  switch (doubt) {
    case DoubtOf::master: return "master";
    case DoubtOf::setting: return "setting";
    case DoubtOf::temperature: return "temperature";
    case DoubtOf::reading: return "reading";
  }
  return "";
}

}  // namespace fettle
