#include "advice/stake.h"

#include <algorithm>
#include <cmath>

#include "numeric/normal.h"

namespace fettle {
namespace {

constexpr double kCutOff = 3.0;       // standard deviations: farther off, a margin is as good as sure
constexpr double kSureEnough = 0.05;  // a part that is too close has at least so much chance of either

double root_mean_square(const std::vector<double>& values, double mean) {
  double sum = 0.0;
  for (const double each : values) sum += (each - mean) * (each - mean);
  return std::sqrt(sum / static_cast<double>(values.size()));
}

double mean_of(const std::vector<double>& values) {
  double sum = 0.0;
  for (const double each : values) sum += each;
  return sum / static_cast<double>(values.size());
}

/// by_draw += what a sum is there.
void add_sum(const CellSum& sum, const std::vector<std::vector<double>>& places, std::vector<double>& by_draw) {
  for (const auto& [cell, coefficient] : sum.terms) {
    for (std::size_t d = 0; d < by_draw.size(); ++d) by_draw[d] += coefficient * places[cell][d];
  }
}

void keep_greater(std::vector<double>& greatest, const std::vector<double>& other) {
  for (std::size_t d = 0; d < greatest.size(); ++d) greatest[d] = std::max(greatest[d], other[d]);
}

bool of_service(const Verdict& verdict, const std::vector<Limit>& limits) {
  const auto limit = std::find_if(limits.begin(), limits.end(), [&](const Limit& each) { return each.id == verdict.limit; });
  return limit != limits.end() && limit->role == LimitRole::service;
}

bool decides(const Verdict& verdict, const std::vector<Limit>& limits) {
  return (verdict.word == VerdictWord::within || verdict.word == VerdictWord::too_close) && of_service(verdict, limits);
}

const PartState* state_in(const std::vector<PartState>& states, const std::string& part) {
  const auto found = std::find_if(states.begin(), states.end(), [&](const PartState& each) { return each.part == part; });
  return found == states.end() ? nullptr : &*found;
}

double chance_of(const Verdict& verdict) {
  if (verdict.forecast) return verdict.forecast->value;
  if (verdict.chance) return verdict.chance->value;
  return verdict.doubt ? normal_lower(verdict.doubt->margin_in_u) : 0.5;
}

/// Several margins as one: the farthest past its limit decides.
class Margins {
 public:
  explicit Margins(std::size_t count) : count_(count) {}

  void add(const Region& region, const std::vector<std::vector<double>>& places) {
    std::vector<double> past = past_region(region, places, count_);
    const double sd = root_mean_square(past, mean_of(past));
    if (sd <= 0.0) return;
    for (double& each : past) each = std::clamp(each / sd, -kCutOff, kCutOff);
    if (worst_.empty()) worst_ = std::move(past); else keep_greater(worst_, past);
  }

  [[nodiscard]] bool any() const { return !worst_.empty(); }
  [[nodiscard]] double kept() const {
    return static_cast<double>(std::count_if(worst_.begin(), worst_.end(), [](double each) { return each <= 0.0; })) / static_cast<double>(count_);
  }

  Stake stake(std::string part, double chance) && {
    if (worst_.empty()) return {std::move(part), chance, std::vector<double>(count_, 0.0), 0.0};
    const double mean = mean_of(worst_);
    const double sd = root_mean_square(worst_, mean);
    for (double& each : worst_) each -= mean;
    return {std::move(part), chance, std::move(worst_), sd * sd};
  }

 private:
  std::size_t count_;
  std::vector<double> worst_;
};

}  // namespace

std::vector<double> past_region(const Region& region, const std::vector<std::vector<double>>& places, std::size_t count) {
  std::vector<double> greatest(count, -1e300);
  for (const HalfSpace& each : region.half_spaces) {
    std::vector<double> by_draw(count, -each.most);
    add_sum(each.sum, places, by_draw);
    keep_greater(greatest, by_draw);
  }
  for (const Disc& each : region.discs) {
    std::vector<double> a(count, 0.0);
    std::vector<double> b(count, 0.0);
    add_sum(each.first, places, a);
    add_sum(each.second, places, b);
    for (std::size_t d = 0; d < count; ++d) a[d] = std::sqrt(a[d] * a[d] + b[d] * b[d]) - each.radius;
    keep_greater(greatest, a);
  }
  if (region.outside) {
    for (double& each : greatest) each = -each;
  }
  return greatest;
}

std::vector<Stake> open_parts(const JudgedGroup& judged, const std::vector<Limit>& limits, const std::vector<PartState>& states,
                              const GroupDraws& draws) {
  std::vector<Stake> out;
  for (std::size_t p = 0; p < draws.parts.size(); ++p) {
    const PartState* state = state_in(states, draws.parts[p]);
    if (state == nullptr || state->word != StateWord::too_close) continue;
    Margins margins(draws.count);
    double least = 1.0;
    for (const WeighedQuestion& each : judged.questions) {
      const Verdict& verdict = judged.verdicts[each.verdict];
      if (verdict.part != draws.parts[p] || !decides(verdict, limits)) continue;
      margins.add(each.region, draws.places[p]);
      least = std::min(least, chance_of(verdict));
    }
    if (!margins.any()) continue;
    const double chance = std::clamp(std::min(margins.kept(), least), kSureEnough, 1.0 - kSureEnough);
    out.push_back(std::move(margins).stake(draws.parts[p], chance));
  }
  return out;
}

std::vector<Stake> unread_parts(const JudgedGroup& judged, const std::vector<Limit>& limits, const std::vector<PartState>& states,
                                const GroupDraws& draws) {
  std::vector<Stake> out;
  for (std::size_t p = 0; p < draws.parts.size(); ++p) {
    const PartState* state = state_in(states, draws.parts[p]);
    if (state == nullptr || state->word != StateWord::not_judged) continue;
    Margins margins(draws.count);
    double least = 1.0;
    for (const WeighedQuestion& each : judged.planned) {
      const Verdict& verdict = judged.verdicts[each.verdict];
      if (verdict.part != draws.parts[p] || verdict.word != VerdictWord::not_judged || !of_service(verdict, limits)) continue;
      margins.add(each.region, draws.places[p]);
      least = std::min(least, chance_of(verdict));
    }
    if (margins.any()) out.push_back(std::move(margins).stake(draws.parts[p], std::min(margins.kept(), least)));
  }
  return out;
}

Stake whole_group(const JudgedGroup& judged, const std::vector<Limit>& limits, const GroupDraws& draws, double chance) {
  Margins margins(draws.count);
  const auto add = [&](const WeighedQuestion& each) {
    const Verdict& verdict = judged.verdicts[each.verdict];
    if (!of_service(verdict, limits)) return;
    const auto part = std::find(draws.parts.begin(), draws.parts.end(), verdict.part);
    if (part != draws.parts.end()) margins.add(each.region, draws.places[static_cast<std::size_t>(part - draws.parts.begin())]);
  };
  for (const WeighedQuestion& each : judged.questions) {
    if (!judged.verdicts[each.verdict].forecast) add(each);
  }
  for (const WeighedQuestion& each : judged.planned) add(each);
  return std::move(margins).stake("", chance);
}

}  // namespace fettle
