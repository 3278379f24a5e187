#include "gauging/needle_proof.h"

#include <algorithm>
#include <array>

#include "base/assertion.h"

namespace fettle {
namespace {

/// Two readings of a needle differ by a division each without anything being wrong.
constexpr std::int64_t kLeastApart = 4;
/// Half of the fewest divisions that a dial of these gauges has.
constexpr std::int64_t kMostWithoutTurn = 50;
/// Nobody counts farther on a thimble; a division that was typed much too small ends here.
constexpr std::int64_t kMostSteps = 10'000;

std::int64_t whole_part(const Ratio& value) { return static_cast<std::int64_t>(value.numerator() / value.denominator()); }

/// The way round the dial between two places, in divisions; straight on where the turn is not known.
Ratio apart(const Ratio& a, const Ratio& b, const std::optional<Ratio>& circle) {
  Ratio way = absolute(a - b);
  if (!circle) return way;
  way = way - *circle * Ratio(whole_part(way / *circle));
  return std::min(way, *circle - way);
}

class Prover {
 public:
  explicit Prover(const ProofInput& input)
      : input_(input), step_(*input.master.division), division_(*input.gauge.division) {
    if (input.gauge.turn) circle_ = input.gauge.turn->ratio() / division_.ratio();
  }

  [[nodiscard]] std::optional<NeedleProof> run() const {
    for (bool opens : {true, false}) {
      if (const auto steps = best_steps(opens)) return proof(opens, *steps);
    }
    return std::nullopt;
  }

 private:
  [[nodiscard]] Ratio divisions(std::int64_t steps) const { return Ratio(steps) * step_.ratio() / division_.ratio(); }

  [[nodiscard]] bool may(bool opens, std::int64_t steps) const {
    const Length amount = Length::counts(steps * step_.counts());
    const auto& room = opens ? input_.may_come_out : input_.may_go_in;
    if (room && amount > *room) return false;
    const Length shown = opens ? input_.set.shown + amount : input_.set.shown - amount;
    const GaugePreset& preset = *input_.master.preset;
    return (!preset.range_to || shown <= *preset.range_to) && (!preset.range_from || shown >= *preset.range_from);
  }

  /// The least way between any two of the four places.
  [[nodiscard]] Ratio told_apart(const Ratio& moved) const {
    const std::array places{moved, -moved, moved * Ratio(2), moved / Ratio(2)};
    Ratio least = moved;
    for (std::size_t i = 0; i < places.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) least = std::min(least, apart(places[i], places[j], circle_));
    }
    return least;
  }

  [[nodiscard]] std::optional<std::int64_t> best_steps(bool opens) const {
    const Ratio most = circle_.value_or(Ratio(kMostWithoutTurn));
    std::optional<std::int64_t> best;
    for (std::int64_t steps = 1; steps <= kMostSteps && divisions(steps) < most && may(opens, steps); ++steps) {
      const Ratio distance = told_apart(divisions(steps));
      if (distance >= Ratio(kLeastApart) && (!best || distance > told_apart(divisions(*best)))) best = steps;
    }
    return best;
  }

  [[nodiscard]] NeedleBetween place(const Ratio& deviation, int per_clockwise) const {
    return between_divisions(needle_place(deviation, division_, input_.gauge.turn, per_clockwise));
  }

  [[nodiscard]] NeedleProof proof(bool opens, std::int64_t steps) const {
    const int sense = size_per_clockwise(*input_.gauge.preset->touches, *input_.gauge.pressed_in);
    const Ratio amount = Ratio(steps) * step_.ratio();
    const Ratio deviation = opens ? amount : -amount;
    const Ratio lines = input_.set.shown.ratio() / step_.ratio() + Ratio(opens ? steps : -steps);
    const Length wanted = input_.set.really_set - input_.set.off;
    return {opens,
            thimble_place(input_.master, Ratio(steps), Length()),
            input_.set,
            thimble_place(input_.master, lines, wanted),
            place(deviation, sense),
            place(deviation, -sense),
            place(deviation * Ratio(2), sense),
            place(deviation / Ratio(2), sense)};
  }

  const ProofInput& input_;
  Length step_;
  Length division_;
  std::optional<Ratio> circle_;
};

}  // namespace

NeedleBetween between_divisions(const NeedlePlace& place) {
  const std::int64_t low = whole_part(place.divisions);
  return {place, low, place.divisions.is_whole() ? low : low + 1};
}

std::optional<NeedleProof> prove_needle(const ProofInput& input) {
  FETTLE_ASSERT(input.gauge.division && input.gauge.pressed_in && input.gauge.preset->touches, input.gauge.id);
  if (!input.master.division || input.master.division->counts() <= 0) return std::nullopt;
  return Prover(input).run();
}

}  // namespace fettle
