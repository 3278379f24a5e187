#include "limits/proof_series_step.h"

#include <algorithm>
#include <cmath>

namespace fettle {
namespace {

const Ratio& millimetre() { return unit_definition(UnitId::millimetre).factor; }
const Ratio& inch() { return unit_definition(UnitId::inch).factor; }

Ratio nearest_multiple(const Ratio& value, const Ratio& of) { return (value / of).rounded() * of; }

/// The round step of the other unit that is printed here rounded; the step itself where there is none.
Ratio rounded_from(const TypedQuantity& step) {
  const Ratio value = step.quantity.in_base();
  const bool metric = family_of(step.quantity.unit) == UnitFamily::metric;
  // The trade calls .010 in 0.25 mm and .040 in 1.00 mm: within a fiftieth.
  const Ratio usual = nearest_multiple(value, metric ? inch() / Ratio(100) : millimetre() / Ratio(4));
  if (usual.sign() != 0 && absolute(usual - value) * Ratio(50) <= absolute(value)) return usual;
  const Ratio fine = nearest_multiple(value, metric ? inch() / Ratio(1000) : millimetre() / Ratio(100));
  return absolute(fine - value) <= half_a_step(step) ? fine : value;
}

/// Least step from one to the next.
Ratio pitch_of(std::vector<Ratio> steps) {
  std::sort(steps.begin(), steps.end());
  Ratio out;
  for (std::size_t i = 1; i < steps.size(); ++i) {
    const Ratio apart = steps[i] - steps[i - 1];
    if (apart.sign() > 0 && (out.sign() == 0 || apart < out)) out = apart;
  }
  return out;
}

bool stands_between(const Ratio& step, const std::vector<Ratio>& before, const std::vector<Ratio>& after, bool up) {
  const auto right = [&](const Ratio& first, const Ratio& second) { return up ? first < second : second < first; };
  return (before.empty() || right(before.back(), step)) && (after.empty() || right(step, after.front()));
}

}  // namespace

const TypedQuantity* step_as_read(const SheetRow& row, UnitFamily family, StepReading reading) {
  return row.step.preferring(reading == StepReading::other_unit ? other_family(family) : family);
}

Ratio step_read(const SheetRow& row, UnitFamily family, StepReading reading) {
  const TypedQuantity* step = step_as_read(row, family, reading);
  if (step == nullptr) return {};
  return reading == StepReading::rounded ? rounded_from(*step) : step->quantity.in_base();
}

std::string step_text(const Ratio& meant, const TypedQuantity& printed) {
  TypedQuantity like = printed;
  const bool metric = family_of(printed.quantity.unit) == UnitFamily::metric;
  if (meant == printed.quantity.in_base()) return shown_like(meant, like);
  like.quantity.unit = metric ? UnitId::inch : UnitId::millimetre;
  like.decimals = metric ? 3 : 2;
  return shown_like(meant, like);
}

StepVotes vote_by_steps(const Ratio& printed, const Ratio& meant, const std::vector<Ratio>& before, const std::vector<Ratio>& after, const Ratio& room) {
  std::vector<Ratio> others = before;
  others.insert(others.end(), after.begin(), after.end());
  const Ratio pitch = pitch_of(others);
  const Ratio least = before.empty() ? after.front() : before.front();
  const Ratio last = after.empty() ? before.back() : after.back();
  const auto score = [&](const Ratio& step) {
    const Ratio slack = room * Ratio(4);  // of the figure and of the base, at half the step
    int out = 0;
    out += pitch.sign() > 0 && absolute(nearest_multiple(step, pitch) - step) <= slack ? 2 : 0;
    out += std::none_of(others.begin(), others.end(), [&](const Ratio& each) { return absolute(each - step) <= slack; }) ? 1 : 0;
    out += stands_between(step, before, after, least < last) ? 1 : 0;
    return out;
  };
  return {score(meant), score(printed)};
}

}  // namespace fettle
