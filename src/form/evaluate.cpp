#include "form/evaluate.h"

#include <cmath>

#include "base/assertion.h"
#include "form/two_lobe.h"
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

}  // namespace

ExactValue evaluate_exact(const Expansion& expansion, const std::vector<std::optional<Ratio>>& sizes_counts) {
  for (std::size_t cell : expansion.used) {
    FETTLE_ASSERT(cell < sizes_counts.size() && sizes_counts[cell].has_value(), "no size for cell " + std::to_string(cell));
  }
  return expansion.sense == Sense::amplitude ? of_lobes(expansion, sizes_counts) : of_forms(expansion, sizes_counts);
}

}  // namespace fettle
