#include "form/evaluate.h"

#include <cmath>

#include "base/assertion.h"
#include "form/two_lobe.h"
#include "form/unfit.h"
#include "units/length.h"

namespace fettle {
namespace {

using Sizes = std::vector<std::optional<Ratio>>;

Ratio value_of(const LinearForm& form, const Sizes& sizes) {
  Ratio sum = form.constant;
  for (const Term& term : form.terms) sum = sum + term.coefficient * sizes[term.cell].value();
  return sum;
}

bool beats(Sense sense, const Ratio& challenger, const Ratio& best) {
  return sense == Sense::least ? challenger < best : challenger > best;
}

/// The attaining form among `count` forms from `first` on.
InnerValue best_of(const Expansion& expansion, const std::vector<Ratio>& values, std::size_t first, std::size_t count) {
  std::size_t best = first;
  for (std::size_t i = first + 1; i < first + count; ++i) {
    if (beats(expansion.sense, values[i], values[best])) best = i;
  }
  return {{}, {}, values[best], expansion.forms[best].where};
}

ExactValue of_forms(const Expansion& expansion, const Sizes& sizes) {
  std::vector<Ratio> values;
  values.reserve(expansion.forms.size());
  for (const LinearForm& form : expansion.forms) values.push_back(value_of(form, sizes));
  InnerValue best = best_of(expansion, values, 0, values.size());
  ExactValue out{best.value, std::move(best.where), {}};
  for (const FormGroup& group : expansion.groups) {
    InnerValue inner = best_of(expansion, values, group.first, group.count);
    inner.station = group.station;
    inner.direction = group.direction;
    out.inner.push_back(std::move(inner));
  }
  return out;
}

/// Deviations from the first size: small figures keep their digits in double.
Ratio ovality_counts(const LobeStation& lobe, const Sizes& sizes) {
  constexpr auto kCounts = static_cast<double>(Length::kCountsPerMillimetre);
  const Ratio from = sizes[lobe.cells.front()].value();
  std::vector<double> deviations_mm;
  for (std::size_t cell : lobe.cells) deviations_mm.push_back((sizes[cell].value() - from).to_double() / kCounts);
  const auto rows = two_lobe_rows(lobe.angles_degrees);
  FETTLE_ASSERT(rows.ok(), "a sound layout has three distinct angles");
  return Ratio(static_cast<Int128>(std::llround(ovality_mm(rows.value(), deviations_mm.data()) * kCounts)));
}

ExactValue of_lobes(const Expansion& expansion, const Sizes& sizes) {
  ExactValue out{Ratio(-1), {}, {}};
  for (const LobeStation& lobe : expansion.lobes) {
    const InnerValue inner{lobe.station, {}, ovality_counts(lobe, sizes), {{lobe.station}, lobe.directions}};
    if (inner.value > out.value) {
      out.value = inner.value;
      out.where = inner.where;
    }
    out.inner.push_back(inner);
  }
  return out;
}

/// A formula has no exact fraction: it is reckoned in double and rounded once, lengths to a count, all else to 1e-9.
Ratio formula_exact(double value, ResultDimension dimension) {
  constexpr std::int64_t kParts = 1'000'000'000;
  const Ratio counts(static_cast<Int128>(Length::kCountsPerMillimetre));
  if (dimension == ResultDimension::length) {
    return Ratio(static_cast<Int128>(std::llround(value * static_cast<double>(Length::kCountsPerMillimetre))));
  }
  const Ratio rounded = Ratio::of(std::llround(value * static_cast<double>(kParts)), kParts);
  return dimension == ResultDimension::force_per_length ? rounded / counts : rounded;
}

ExactValue of_formulas(const Expansion& expansion, const Sizes& sizes) {
  ExactValue out{Ratio(), {}, {}};
  for (const Formula& formula : expansion.formulas) {
    const auto figure = formula_value(formula, formula_inputs(formula, sizes));
    FETTLE_ASSERT(figure.has_value(), "readings that give no figure are refused before");
    const Ratio value = formula_exact(*figure, expansion.dimension);
    const bool better = out.inner.empty() || (expansion.sense == Sense::least_formula ? value < out.value : value > out.value);
    if (better) {
      out.value = value;
      out.where = formula.where;
    }
    const bool one = formula.where.stations.size() == 1;
    out.inner.push_back({one ? std::optional(formula.where.stations.front()) : std::nullopt, {}, value, formula.where});
  }
  return out;
}

}  // namespace

ExactValue evaluate_exact(const Expansion& expansion, const std::vector<std::optional<Ratio>>& sizes_counts) {
  for (std::size_t cell : expansion.used) {
    FETTLE_ASSERT(cell < sizes_counts.size() && sizes_counts[cell].has_value(), "no size for cell " + std::to_string(cell));
  }
  if (!expansion.formulas.empty()) return of_formulas(expansion, sizes_counts);
  return expansion.sense == Sense::amplitude ? of_lobes(expansion, sizes_counts) : of_forms(expansion, sizes_counts);
}

}  // namespace fettle
