#include "advice/next_visit.h"

#include <algorithm>
#include <cmath>

#include "numeric/triangular.h"

namespace fettle {
namespace {

constexpr double kUm = 1000.0;             // per mm
constexpr double kBetterMasterUm = 1.0;    // standard uncertainty of a setting ring or blocks: common practice, no source
constexpr double kThermometerCelsius = 0.5 / 1.7320508075688772;  // ± 0.5 °C, rectangular
constexpr double kLeastVariance = 1e-6;    // µm²

/// What a new reading of a place adds to the place itself.
struct NewErrors {
  std::vector<ErrorTerm> kept;  ///< errors that the readings have already
  double fresh_um2 = 0.0;       ///< common to all readings of one fresh setting
  double own_um2 = 0.0;         ///< of each reading
};

bool lent_by_master(const ErrorSource& source) { return source.scope == ErrorScope::master && source.dimension == Dimension::length; }

NewErrors new_errors(const std::vector<ErrorTerm>& like, const std::vector<ErrorSource>& sources, VisitSort sort) {
  NewErrors out;
  const bool fresh = sort != VisitSort::same_setting;
  for (const ErrorTerm& term : like) {
    const ErrorSource& source = sources[term.source];
    const double um = term.coefficient * source.standard_uncertainty * kUm;
    const double um2 = um * um;
    switch (source.scope) {
      case ErrorScope::reading: out.own_um2 += um2; break;
      case ErrorScope::setting: fresh ? void(out.fresh_um2 += um2) : out.kept.push_back(term); break;
      case ErrorScope::master:
        if (sort == VisitSort::other_master && lent_by_master(source)) {
          out.fresh_um2 += std::min(um2, kBetterMasterUm * kBetterMasterUm);
        } else {
          out.kept.push_back(term);
        }
        break;
      case ErrorScope::round:
        if (of_unknown_temperature(source) && sort == VisitSort::rested) {
          const double rested = term.coefficient * kThermometerCelsius * kUm;
          out.fresh_um2 += std::min(um2, rested * rested);
        } else if (fresh && source.dimension == Dimension::length) {
          out.fresh_um2 += um2;
        } else {
          out.kept.push_back(term);  // the shop does not get warmer or colder by setting the gauge afresh
        }
        break;
    }
  }
  out.own_um2 = std::max(out.own_um2, kLeastVariance);
  return out;
}

/// The terms of the reading that a new one is most like.
class Likeness {
 public:
  Likeness(const GroupDraws& draws, const SizeSet& own) : draws_(draws), own_(own) {}

  [[nodiscard]] bool was_read(std::size_t part, std::size_t cell) const {
    return std::any_of(own_.sizes.begin(), own_.sizes.end(), [&](const Size& size) { return size.part == draws_.parts[part] && size.cell == cell; });
  }

  [[nodiscard]] const std::vector<ErrorTerm>* of(std::size_t part, std::size_t cell) const {
    const Size* found = nullptr;
    int best = 0;
    for (const Size& size : own_.sizes) {
      const int like = size.part != draws_.parts[part] ? 1 : size.cell != cell ? 2 : 3;
      if (like < best) continue;
      best = like;
      found = &size;
    }
    return found == nullptr ? nullptr : &found->terms;
  }

 private:
  const GroupDraws& draws_;
  const SizeSet& own_;
};

/// A reading that may be taken: how it varies over the draws, and what it has of errors that nothing else here has.
struct Candidate {
  std::size_t part;
  std::size_t cell;
  std::size_t setting;
  std::vector<double> draws;  ///< less their mean
  double shared_sd;           ///< of the fresh setting's own error
  double own_um2;
  double left_um2;            ///< variance that the readings chosen so far do not explain, its own included
  std::vector<double> with;   ///< by stake: covariance with what is left of its margin
};

void centre(std::vector<double>& values) {
  double mean = 0.0;
  for (const double each : values) mean += each;
  mean /= static_cast<double>(values.size());
  for (double& each : values) each -= mean;
}

class VisitPlanner {
 public:
  VisitPlanner(const VisitPlan& plan, const GroupDraws& draws, const SizeSet& own, const std::vector<Stake>& stakes, const std::vector<double>& weights)
      : plan_(plan), draws_(draws), stakes_(stakes), weights_(weights), explained_(stakes.size(), 0.0) {
    const Likeness likeness(draws, own);
    for (std::size_t p = 0; p < draws.parts.size(); ++p) {
      for (std::size_t c = 0; c < draws.places[p].size(); ++c) {
        if (draws.places[p][c].empty() || (plan.unread_only && (!at_stake(p) || likeness.was_read(p, c)))) continue;
        const std::vector<ErrorTerm>* like = likeness.of(p, c);
        if (like != nullptr) add(p, c, new_errors(*like, own.sources, plan.sort), own.sources);
      }
    }
  }

  std::vector<VisitStep> run() {
    std::vector<VisitStep> out;
    while (out.size() < plan_.most && !candidates_.empty()) {
      const std::size_t best = most_telling();
      take(best);
      const Candidate taken = candidates_[best];
      if (plan_.unread_only) candidates_.erase(candidates_.begin() + static_cast<std::ptrdiff_t>(best));
      std::vector<double> shares = explained_;
      for (std::size_t t = 0; t < stakes_.size(); ++t) shares[t] = stakes_[t].variance > 0.0 ? std::min(shares[t] / stakes_[t].variance, 1.0) : 0.0;
      out.push_back({taken.part, taken.cell, taken.setting, std::move(shares)});
    }
    return out;
  }

 private:
  /// What was chosen, made independent of all before it and of variance 1.
  struct Direction {
    std::vector<double> draws;
    std::vector<double> shared;  ///< by fresh setting
  };

  void add(std::size_t part, std::size_t cell, const NewErrors& errors, const std::vector<ErrorSource>& sources) {
    std::vector<double> values = draws_.places[part][cell];
    for (const ErrorTerm& term : errors.kept) {
      if (term.source >= draws_.errors.size() || draws_.errors[term.source].empty()) continue;
      add_scaled(values, draws_.origin.sign * term.coefficient * sources[term.source].standard_uncertainty * kUm, draws_.errors[term.source]);
    }
    centre(values);
    const double n = static_cast<double>(draws_.count);
    for (double& each : values) each /= std::sqrt(n);
    Candidate made{part, cell, 0, std::move(values), std::sqrt(errors.fresh_um2), errors.own_um2, 0.0, {}};
    made.left_um2 = dot(made.draws, made.draws) + errors.fresh_um2 + errors.own_um2;
    for (const Stake& stake : stakes_) made.with.push_back(dot(made.draws, stake.margin) / std::sqrt(n));
    for (std::size_t setting = 0; setting < plan_.settings; ++setting) {
      candidates_.push_back(made);
      candidates_.back().setting = setting;
    }
  }

  /// Of so many places, one seems to tell this share of a margin by the luck of the draws alone. What has nothing to do with a part at stake
  /// must tell more than that.
  [[nodiscard]] double by_luck() const { return 3.0 * std::log(static_cast<double>(candidates_.size())) / static_cast<double>(draws_.count); }

  [[nodiscard]] bool at_stake(std::size_t part) const {
    return std::any_of(stakes_.begin(), stakes_.end(), [&](const Stake& each) { return each.part.empty() || each.part == draws_.parts[part]; });
  }

  [[nodiscard]] std::size_t most_telling() const {
    std::size_t best = 0;
    double most = -1.0;
    const double luck = by_luck();
    for (std::size_t i = 0; i < candidates_.size(); ++i) {
      double gain = at_stake(candidates_[i].part) ? 0.0 : -luck;
      for (std::size_t t = 0; t < stakes_.size(); ++t) {
        if (stakes_[t].variance <= 0.0) continue;
        gain += weights_[t] * candidates_[i].with[t] * candidates_[i].with[t] / (candidates_[i].left_um2 * stakes_[t].variance);
      }
      if (gain <= most * (1.0 + 1e-9)) continue;
      most = gain;
      best = i;
    }
    return best;
  }

  /// The direction of what a candidate tells beyond those chosen, and what that leaves of all others.
  void take(std::size_t index) {
    const Candidate& chosen = candidates_[index];
    Direction out{chosen.draws, std::vector<double>(plan_.settings, 0.0)};
    out.shared[chosen.setting] = chosen.shared_sd;
    for (const Direction& before : chosen_) {
      const double along = inner(chosen, before);
      add_scaled(out.draws, -along, before.draws);
      add_scaled(out.shared, -along, before.shared);
    }
    const double scale = 1.0 / std::sqrt(chosen.left_um2);
    for (double& each : out.draws) each *= scale;
    for (double& each : out.shared) each *= scale;
    std::vector<double> of_stakes(stakes_.size());
    for (std::size_t t = 0; t < stakes_.size(); ++t) {
      of_stakes[t] = chosen.with[t] * scale;
      explained_[t] += of_stakes[t] * of_stakes[t];
    }
    for (Candidate& each : candidates_) {
      const double along = inner(each, out);
      each.left_um2 = std::max(each.left_um2 - along * along, each.own_um2);
      for (std::size_t t = 0; t < stakes_.size(); ++t) each.with[t] -= along * of_stakes[t];
    }
    chosen_.push_back(std::move(out));
  }

  /// A reading's own error is in no other reading, nor in another of the same place.
  [[nodiscard]] static double inner(const Candidate& candidate, const Direction& direction) {
    return dot(candidate.draws, direction.draws) + candidate.shared_sd * direction.shared[candidate.setting];
  }

  const VisitPlan& plan_;
  const GroupDraws& draws_;
  const std::vector<Stake>& stakes_;
  const std::vector<double>& weights_;
  std::vector<Candidate> candidates_;
  std::vector<Direction> chosen_;
  std::vector<double> explained_;
};

/// What knowing these errors would explain of a stake.
double explained_by(const std::vector<std::size_t>& sources, const Stake& stake, const GroupDraws& draws) {
  if (stake.variance <= 0.0) return 0.0;
  const double n = static_cast<double>(draws.count);
  std::vector<std::vector<double>> directions;
  double explained = 0.0;
  for (const std::size_t source : sources) {
    std::vector<double> each = draws.errors[source];
    centre(each);
    for (const std::vector<double>& before : directions) add_scaled(each, -dot(each, before) / n, before);
    const double variance = dot(each, each) / n;
    if (variance < 1e-9) continue;
    for (double& value : each) value /= std::sqrt(variance);
    const double with = dot(each, stake.margin) / n;
    explained += with * with;
    directions.push_back(std::move(each));
  }
  return std::min(explained / stake.variance, 1.0);
}

}  // namespace

std::vector<VisitStep> plan_visit(const VisitPlan& plan, const GroupDraws& draws, const SizeSet& own, const std::vector<Stake>& stakes,
                                  const std::vector<double>& weights) {
  return VisitPlanner(plan, draws, own, stakes, weights).run();
}

bool of_unknown_temperature(const ErrorSource& source) { return source.scope == ErrorScope::round && source.component == "temperature"; }

std::vector<PlaceToRead> places_of(const std::vector<VisitStep>& steps, std::size_t count) {
  std::vector<PlaceToRead> out;
  for (std::size_t k = 0; k < std::min(count, steps.size()); ++k) {
    const auto same = std::find_if(out.begin(), out.end(), [&](const PlaceToRead& each) {
      return each.part == steps[k].part && each.cell == steps[k].cell && each.setting == steps[k].setting;
    });
    if (same == out.end()) {
      out.push_back({steps[k].part, steps[k].cell, steps[k].setting, 1});
    } else {
      ++same->times;
    }
  }
  std::sort(out.begin(), out.end(), [](const PlaceToRead& a, const PlaceToRead& b) {
    return std::tie(a.setting, a.part, a.cell) < std::tie(b.setting, b.part, b.cell);
  });
  return out;
}

double minutes_of(const VisitPlan& plan, std::size_t readings, const VisitMinutes& minutes) {
  const double reading = minutes.reading * static_cast<double>(readings);
  const double setting = minutes.setting * static_cast<double>(plan.settings);
  switch (plan.sort) {
    case VisitSort::same_setting: return reading;
    case VisitSort::fresh_setting: return reading + setting;
    case VisitSort::other_master: return reading + setting + minutes.other_master;
    case VisitSort::rested: return reading + setting + minutes.rest;
  }
  return reading;
}

DoubtOf DoubtShares::largest() const {
  const std::pair<double, DoubtOf> all[] = {
      {master, DoubtOf::master}, {setting, DoubtOf::setting}, {temperature, DoubtOf::temperature}, {reading, DoubtOf::reading}};
  return std::max_element(std::begin(all), std::end(all), [](const auto& a, const auto& b) { return a.first < b.first; })->second;
}

DoubtShares doubt_shares(const Stake& stake, const GroupDraws& draws) {
  std::vector<std::size_t> master;
  std::vector<std::size_t> setting;
  std::vector<std::size_t> temperature;
  for (std::size_t s = 0; s < draws.sources.size(); ++s) {
    if (draws.errors[s].empty()) continue;
    const ErrorSource& source = draws.sources[s];
    switch (source.scope) {
      case ErrorScope::reading: break;
      case ErrorScope::master: (lent_by_master(source) ? master : temperature).push_back(s); break;
      case ErrorScope::setting: setting.push_back(s); break;
      case ErrorScope::round: (source.dimension == Dimension::length ? setting : temperature).push_back(s); break;
    }
  }
  DoubtShares out{explained_by(master, stake, draws), explained_by(setting, stake, draws), explained_by(temperature, stake, draws), 0.0};
  out.reading = std::max(1.0 - out.master - out.setting - out.temperature, 0.0);
  return out;
}

}  // namespace fettle
