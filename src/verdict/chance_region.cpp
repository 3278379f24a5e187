#include "verdict/chance_region.h"

#include "base/assertion.h"
#include "form/two_lobe.h"
#include "verdict/place_values.h"

namespace fettle {
namespace {

constexpr double kMillimetresPerMicrometre = 1e-3;

/// The form where every place stands at the origin.
double at_origin(const LinearForm& form, ResultDimension dimension, const ShapeOrigin& origin) {
  double value = constant_in_unit(form.constant, dimension);
  for (const Term& term : form.terms) value += term.coefficient.to_double() * scale_to_counts(dimension) * origin.base_mm;
  return value;
}

CellSum times(CellSum sum, double factor) {
  for (auto& [cell, coefficient] : sum.terms) coefficient *= factor;
  return sum;
}

/// 2·√(a² + b²) ≤ bound, a and b linear in the sizes.
Disc disc_of(const LobeStation& lobe, double bound, const ShapeOrigin& origin) {
  auto rows = two_lobe_rows(lobe.angles_degrees);
  FETTLE_ASSERT(rows.ok(), "a sound layout has three distinct angles");
  Disc disc{{}, {}, bound / 2.0};
  for (std::size_t k = 0; k < lobe.cells.size(); ++k) {
    const double mm = origin.sign * kMillimetresPerMicrometre;
    disc.first.terms.emplace_back(lobe.cells[k], rows.value().a[k] * mm);
    disc.second.terms.emplace_back(lobe.cells[k], rows.value().b[k] * mm);
  }
  return disc;
}

}  // namespace

CellSum sum_of(const LinearForm& form, ResultDimension dimension, const ShapeOrigin& origin) {
  CellSum sum;
  const double mm = origin.sign * kMillimetresPerMicrometre * scale_to_counts(dimension);
  for (const Term& term : form.terms) sum.terms.emplace_back(term.cell, term.coefficient.to_double() * mm);
  return sum;
}

Region region_of(const Expansion& expansion, double bound, LimitSide side, const ShapeOrigin& origin) {
  const bool most = side == LimitSide::at_most;
  Region region{{}, {}, false};
  bool below = most;  // whether the convex region is that of forms below the bound
  switch (expansion.sense) {
    case Sense::linear: break;
    case Sense::formula:
    case Sense::least_formula: FETTLE_ASSERT(false, "a formula has no region made of linear forms"); break;
    case Sense::greatest:
    case Sense::amplitude:
      below = true;
      region.outside = !most;
      break;
    case Sense::least:
      below = false;
      region.outside = most;
      break;
  }
  for (const LinearForm& form : expansion.forms) {
    const double room = bound - at_origin(form, expansion.dimension, origin);
    CellSum sum = sum_of(form, expansion.dimension, origin);
    region.half_spaces.push_back(below ? HalfSpace{std::move(sum), room} : HalfSpace{times(std::move(sum), -1.0), -room});
  }
  for (const LobeStation& lobe : expansion.lobes) region.discs.push_back(disc_of(lobe, bound, origin));
  return region;
}

}  // namespace fettle
