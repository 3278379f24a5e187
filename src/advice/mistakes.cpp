#include "advice/mistakes.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <memory>

#include "base/assertion.h"
#include "numeric/elementary.h"
#include "numeric/normal.h"

namespace fettle {
namespace {

constexpr double kHalfLogOfTwoPi = 0.91893853320467274178;
constexpr double kLogOfTwo = 0.69314718055994530942;
constexpr double kOddPart = 0.02;      ///< share of parts that are unlike their group, as in form/shape_estimate.cpp
constexpr double kUnlikeWear = 0.02;   ///< share of groups that fit no wear the model knows, as in form/shape_take.cpp
constexpr double kWorthALook = 0.01;   ///< chance from which on a row gets a fit of its own
constexpr std::size_t kMostLooks = 4;
constexpr double kFarthest = 35.0;     ///< standard deviations: beyond, the tail of a half-normal is 0 for all that is asked
constexpr double kNothing = -1e300;
constexpr double kFirst = -1e300;      ///< in front of whatever was only looked at quickly

double log_normal_density(double off, double sd) {
  const double z = off / sd;
  return -0.5 * z * z - natural_log(sd) - kHalfLogOfTwoPi;
}

double log_upper_tail(double z) {
  const double tail = normal_upper(std::min(z, kFarthest));
  return tail > 0.0 ? natural_log(tail) : kNothing;
}

double log_honest_density(const Forecast& forecast, double value) {
  std::vector<double> all;
  for (const ForecastPart& each : forecast) all.push_back(each.log_weight + log_normal_density(value - each.mean, each.sd));
  return log_sum(all);
}

double logit_of(double share) { return natural_log(share / (1.0 - share)); }

double chance_of_odds(double log_odds) { return log_odds > 0.0 ? 1.0 / (1.0 + exponential(std::max(-log_odds, -700.0))) : exponential(log_odds) / (1.0 + exponential(log_odds)); }

/// The rows without one block.
ShapeRows rows_without(const ShapeRows& rows, std::size_t block) {
  ShapeRows out = rows;
  out.blocks.erase(out.blocks.begin() + static_cast<std::ptrdiff_t>(block));
  out.rows.erase(out.rows.begin() + static_cast<std::ptrdiff_t>(block));
  return out;
}

ShapeRows rows_of_block(const ShapeRows& rows, std::size_t block) {
  ShapeRows out = rows;
  out.blocks = {rows.blocks[block]};
  out.rows = {rows.rows[block]};
  return out;
}

std::size_t rows_in(const ShapeRows& rows) {
  std::size_t out = 0;
  for (const BlockRows& each : rows.blocks) out += each.value.size();
  return out;
}

class GroupWeigher {
 public:
  explicit GroupWeigher(const GroupInQuestion& from) : from_(from) {}

  /// Odds of one row from a fit in which it is worth little, the part also taken as unlike its group and the group as unlike any wear.
  [[nodiscard]] WeighedReading look_closer(const RowInQuestion& row, std::vector<RowPlace> mistaken) const {
    if (std::find(mistaken.begin(), mistaken.end(), row.at) == mistaken.end()) mistaken.push_back(row.at);
    const ShapeScreen screen(from_.knowledge, from_.rows, from_.freedom, mistaken);
    return weigh(row, with_any_shape(with_part_apart(screen.forecast(row.at), row.at, mistaken), row.at, mistaken));
  }

  [[nodiscard]] WeighedReading weigh(const RowInQuestion& row, const Forecast& forecast) const {
    return weigh_reading(forecast, value_of(row.at), row.mistakes);
  }

  [[nodiscard]] double value_of(const RowPlace& at) const { return from_.rows.blocks[at.first].value[at.second]; }

  /// The forecast of a group, and that of the part by itself: a sleeve of another size is no mistake of a hand.
  [[nodiscard]] Forecast with_part_apart(Forecast together, const RowPlace& at, const std::vector<RowPlace>& mistaken) const {
    if (from_.rows.blocks.size() < 2 || rows_in(from_.rows) == from_.rows.blocks[at.first].value.size()) return together;
    std::vector<RowPlace> of_part;
    std::vector<RowPlace> of_others;
    for (const auto& [b, k] : mistaken) {
      if (b == at.first) of_part.emplace_back(0, k);
      if (b != at.first) of_others.emplace_back(b - (b > at.first ? 1 : 0), k);
    }
    const ShapeScreen others(from_.knowledge, rows_without(from_.rows, at.first), from_.freedom, of_others);
    const ShapeScreen alone(from_.knowledge, rows_of_block(from_.rows, at.first), ShapeFreedom::loose_level, of_part);
    for (ForecastPart& each : together) each.log_weight += natural_log(1.0 - kOddPart);
    for (ForecastPart each : alone.forecast({0, at.second})) {
      each.log_weight += others.log_evidence() + natural_log(kOddPart);
      together.push_back(each);
    }
    return together;
  }

  /// A shape that the model does not know is no mistake of a hand either.
  [[nodiscard]] Forecast with_any_shape(Forecast usual, const RowPlace& at, const std::vector<RowPlace>& mistaken) const {
    if (from_.freedom == ShapeFreedom::any_shape) return usual;
    const ShapeScreen any(from_.knowledge, from_.rows, ShapeFreedom::any_shape, mistaken);
    for (ForecastPart& each : usual) each.log_weight += natural_log(1.0 - kUnlikeWear);
    for (ForecastPart each : any.forecast(at)) {
      each.log_weight += natural_log(kUnlikeWear);
      usual.push_back(each);
    }
    return usual;
  }

  [[nodiscard]] double exchange_evidence(const RowsExchanged& exchange, const std::vector<RowPlace>& mistaken) const {
    ShapeRows rows = from_.rows;
    for (const auto& [at, by] : exchange.shifts) rows.blocks[at.first].value[at.second] += by;
    return ShapeScreen(from_.knowledge, rows, from_.freedom, mistaken).log_evidence();
  }

  const GroupInQuestion& from_;
};

bool is_among(const std::vector<RowPlace>& rows, const RowPlace& at) { return std::find(rows.begin(), rows.end(), at) != rows.end(); }

bool touches(const RowsExchanged& exchange, const std::vector<RowPlace>& rows) {
  return std::any_of(exchange.shifts.begin(), exchange.shifts.end(), [&](const auto& shift) { return is_among(rows, shift.first); });
}

/// From the fit as it is; only a first look, and worth nothing where rows of several parts move together.
double quick_log_odds(const RowsExchanged& exchange, const ShapeScreen& screen) {
  std::vector<std::pair<std::size_t, double>> shifts;
  for (const auto& [at, by] : exchange.shifts) shifts.emplace_back(at.second, by);
  return logit_of(exchange.prior) + screen.log_shift_ratio(exchange.shifts.front().first.first, shifts);
}

/// One explanation of what looks odd.
struct Suspicion {
  double log_odds;
  const RowInQuestion* row;        ///< nothing: an exchange
  const RowsExchanged* exchange;
  std::shared_ptr<const WeighedReading> closer;
};

AskedRows asked_of(const Suspicion& best, double chance) {
  if (best.exchange != nullptr) {
    AskedRows out{{}, best.exchange->kind, chance, 0.0, 0.0, {{best.exchange->kind, 1.0}}};
    for (const auto& each : best.exchange->shifts) out.rows.push_back(each.first);
    return out;
  }
  return {{best.row->at}, best.closer->by_kind.front().first, chance, best.closer->expected, best.closer->expected_sd, best.closer->by_kind};
}

/// The chance of one explanation among all.
double share_of(const Suspicion& best, const std::vector<Suspicion>& all) {
  std::vector<double> odds = {0.0};
  for (const Suspicion& each : all) odds.push_back(each.log_odds);
  return exponential(std::max(best.log_odds - log_sum(odds), -700.0));
}

class FinishedGroup {
 public:
  explicit FinishedGroup(const GroupInQuestion& from) : from_(from), weigher_(from) {}

  std::vector<AskedRows> run() {
    std::vector<AskedRows> out;
    while (out.size() < kMostAsked) {
      std::vector<Suspicion> all = suspicions();
      if (all.empty()) break;
      const Suspicion& best = all.front();
      const double chance = share_of(best, all);
      if (chance < kAskFrom) break;
      out.push_back(asked_of(best, chance));
      for (const RowPlace& each : out.back().rows) mistaken_.push_back(each);
      if (best.row != nullptr && best.row->stands) out.pop_back();
    }
    return out;
  }

 private:
  /// The likeliest first.
  std::vector<Suspicion> suspicions() {
    const ShapeScreen screen(from_.knowledge, from_.rows, from_.freedom, mistaken_);
    std::vector<Suspicion> all;
    for (const RowInQuestion& row : from_.in_question) {
      if (is_among(mistaken_, row.at)) continue;
      all.push_back({weigher_.weigh(row, screen.forecast(row.at)).log_odds, &row, nullptr, {}});
    }
    sort(all);
    for (std::size_t i = 0; i < std::min(all.size(), kMostLooks); ++i) {
      if (i > 0 && chance_of_odds(all[i].log_odds) < kWorthALook) break;
      look_closer(all[i]);
    }
    add_exchanges(screen, all);
    sort(all);
    // Only what was looked at closely is ever asked about.
    if (!all.empty() && all.front().row != nullptr && !all.front().closer) {
      look_closer(all.front());
      sort(all);
      if (all.front().row != nullptr && !all.front().closer) look_closer(all.front());
    }
    return all;
  }

  void look_closer(Suspicion& at) const {
    at.closer = std::make_shared<const WeighedReading>(weigher_.look_closer(*at.row, mistaken_));
    at.log_odds = at.closer->log_odds;
  }

  void add_exchanges(const ShapeScreen& screen, std::vector<Suspicion>& all) const {
    std::vector<std::pair<double, const RowsExchanged*>> near;
    for (const RowsExchanged& each : from_.exchanges) {
      if (touches(each, mistaken_)) continue;
      const bool of_setting = each.kind->reach == MistakeReach::setting;
      const double log_odds = of_setting ? 0.0 : quick_log_odds(each, screen);
      if (chance_of_odds(log_odds) < kWorthALook) continue;
      near.emplace_back(of_setting ? kFirst : -log_odds, &each);
    }
    std::stable_sort(near.begin(), near.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    for (std::size_t i = 0; i < near.size(); ++i) {
      const RowsExchanged& each = *near[i].second;
      const bool closely = i < kMostLooks || each.kind->reach == MistakeReach::setting;
      const double exact = closely ? weigher_.exchange_evidence(each, mistaken_) - screen.log_evidence() + logit_of(each.prior) : -near[i].first;
      all.push_back({exact, nullptr, &each, {}});
    }
  }

  static void sort(std::vector<Suspicion>& all) {
    std::stable_sort(all.begin(), all.end(), [](const Suspicion& a, const Suspicion& b) { return a.log_odds > b.log_odds; });
  }

  const GroupInQuestion& from_;
  GroupWeigher weigher_;
  std::vector<RowPlace> mistaken_;
};

}  // namespace

double WeighedReading::chance() const { return chance_of_odds(log_odds); }

double log_density_of(const SupposedMistake& mistake, const Forecast& forecast, double value) {
  if (mistake.meant) return log_honest_density(forecast, *mistake.meant);
  std::vector<double> all;
  for (const ForecastPart& each : forecast) {
    const double both = std::sqrt(each.sd * each.sd + mistake.scale * mistake.scale);
    const double off = value - each.mean;
    double log_density = log_normal_density(off, both);
    if (mistake.toward != 0) log_density += kLogOfTwo + log_upper_tail(-mistake.toward * off * mistake.scale / (each.sd * both));
    all.push_back(each.log_weight + log_density);
  }
  return log_sum(all);
}

WeighedReading weigh_reading(const Forecast& forecast, double value, const std::vector<SupposedMistake>& mistakes) {
  FETTLE_ASSERT(!forecast.empty(), "a forecast of nothing");
  double share = 0.0;
  std::vector<double> logs;
  std::map<std::string, std::pair<const MistakeKind*, std::vector<double>>> by_kind;
  for (const SupposedMistake& each : mistakes) {
    share += each.prior;
    logs.push_back(natural_log(each.prior) + log_density_of(each, forecast, value));
    auto& of_kind = by_kind[each.kind->id];
    of_kind.first = each.kind;
    of_kind.second.push_back(logs.back());
  }
  const double mistaken = log_sum(logs);
  // None of them happened: e^−share of rare things, as good as 1 − share for one reading, and still a share where many stand in one row.
  WeighedReading out{mistaken + share - log_honest_density(forecast, value), 0.0, 0.0, {}};
  for (const auto& [id, of_kind] : by_kind) out.by_kind.emplace_back(of_kind.first, exponential(std::max(log_sum(of_kind.second) - mistaken, -700.0)));
  std::stable_sort(out.by_kind.begin(), out.by_kind.end(), [](const auto& a, const auto& b) { return a.second > b.second; });
  std::vector<double> weights;
  for (const ForecastPart& each : forecast) weights.push_back(each.log_weight);
  const double whole = log_sum(weights);
  double square = 0.0;
  for (const ForecastPart& each : forecast) {
    const double weight = exponential(std::max(each.log_weight - whole, -700.0));
    out.expected += weight * each.mean;
    square += weight * (each.mean * each.mean + each.sd * each.sd);
  }
  out.expected_sd = std::sqrt(std::max(square - out.expected * out.expected, 0.0));
  return out;
}

std::vector<AskedRows> ask_group(const GroupInQuestion& from) { return FinishedGroup(from).run(); }

std::optional<AskedRows> ask_arriving(const GroupInQuestion& from, const RowPlace& row, const std::vector<RowPlace>& open) {
  const auto found = std::find_if(from.in_question.begin(), from.in_question.end(), [&](const RowInQuestion& each) { return each.at == row; });
  if (found == from.in_question.end() || found->stands) return std::nullopt;
  const GroupWeigher weigher(from);
  std::vector<RowPlace> mistaken = open;
  std::vector<RowPlace> with_row = mistaken;
  with_row.push_back(row);
  const ShapeScreen screen(from.knowledge, from.rows, from.freedom, with_row);
  Suspicion best{weigher.weigh(*found, screen.forecast(row)).log_odds, &*found, nullptr, {}};
  std::vector<Suspicion> all;
  for (const RowsExchanged& each : from.exchanges) {
    if (each.kind->reach != MistakeReach::setting && touches(each, {row})) all.push_back({quick_log_odds(each, screen), nullptr, &each, {}});
  }
  double most = best.log_odds;
  for (const Suspicion& each : all) most = std::max(most, each.log_odds);
  if (chance_of_odds(most) < kAskFrom) return std::nullopt;
  // About to ask: is the part unlike its group, or is an earlier reading the one that is wrong?
  for (std::size_t looks = 0; looks < kMostLooks; ++looks) {
    best.closer = std::make_shared<const WeighedReading>(weigher.look_closer(*found, mistaken));
    best.log_odds = best.closer->log_odds;
    const ShapeScreen as_read(from.knowledge, from.rows, from.freedom, mistaken);
    std::vector<Suspicion> others;
    for (const RowInQuestion& each : from.in_question) {
      if (each.at == row || is_among(mistaken, each.at)) continue;
      others.push_back({weigher.weigh(each, as_read.forecast(each.at)).log_odds, &each, nullptr, {}});
    }
    const auto other = std::max_element(others.begin(), others.end(), [](const Suspicion& a, const Suspicion& b) { return a.log_odds < b.log_odds; });
    if (other != others.end() && other->log_odds > best.log_odds && other->log_odds > 0.0) {
      mistaken.push_back(other->row->at);
      continue;
    }
    others.insert(others.end(), all.begin(), all.end());
    others.push_back(best);
    const auto likeliest = std::max_element(all.begin(), all.end(), [](const Suspicion& a, const Suspicion& b) { return a.log_odds < b.log_odds; });
    const Suspicion& said = likeliest != all.end() && likeliest->log_odds > best.log_odds ? *likeliest : best;
    const double chance = share_of(said, others);
    if (chance < kAskFrom) return std::nullopt;
    return asked_of(said, chance);
  }
  return std::nullopt;
}

}  // namespace fettle
