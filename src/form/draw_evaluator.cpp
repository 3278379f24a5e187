#include "form/draw_evaluator.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/assertion.h"
#include "form/formula.h"
#include "units/length.h"

namespace fettle {

DrawEvaluator::DrawEvaluator(const Expansion& expansion)
    : least_(expansion.sense == Sense::least || expansion.sense == Sense::least_formula), formulas_(expansion.formulas),
      used_(expansion.used), cells_needed_(expansion.used.empty() ? 0 : expansion.used.back() + 1) {
  // Forms of lengths are in counts; of a ratio the result is a pure number, so a size in mm is first turned into counts.
  const Ratio per_mm(static_cast<Int128>(Length::kCountsPerMillimetre));
  const bool length = expansion.dimension == ResultDimension::length;
  const bool ratio = expansion.dimension == ResultDimension::ratio;
  starts_.push_back(0);
  for (const LinearForm& form : expansion.forms) {
    constants_.push_back((length ? form.constant / per_mm : form.constant).to_double());
    for (const Term& term : form.terms) {
      cells_.push_back(static_cast<std::uint32_t>(term.cell));
      coefficients_.push_back((ratio ? term.coefficient * per_mm : term.coefficient).to_double());
    }
    starts_.push_back(static_cast<std::uint32_t>(cells_.size()));
  }
  for (const LobeStation& lobe : expansion.lobes) {
    auto rows = two_lobe_rows(lobe.angles_degrees);
    FETTLE_ASSERT(rows.ok(), "a sound layout has three distinct angles");
    lobes_.push_back({lobe.cells, std::move(rows).value()});
  }
}

DrawEvaluator::Drawn DrawEvaluator::attain_lobe(std::span<const double> sizes_mm) const {
  Drawn best{-1.0, 0};
  for (std::size_t i = 0; i < lobes_.size(); ++i) {
    const Lobe& lobe = lobes_[i];
    const double from = sizes_mm[lobe.cells.front()];
    double a = 0.0;
    double b = 0.0;
    for (std::size_t k = 0; k < lobe.cells.size(); ++k) {
      const double deviation = sizes_mm[lobe.cells[k]] - from;
      a += lobe.rows.a[k] * deviation;
      b += lobe.rows.b[k] * deviation;
    }
    const double value = 2.0 * std::sqrt(a * a + b * b);
    if (value > best.value) best = {value, i};
  }
  return best;
}

DrawEvaluator::Drawn DrawEvaluator::attain(std::span<const double> sizes_mm) const {
  FETTLE_ASSERT(sizes_mm.size() >= cells_needed_, "too few sizes");
  if (!lobes_.empty()) return attain_lobe(sizes_mm);
  if (!formulas_.empty()) return attain_formula(sizes_mm);
  Drawn best{0.0, 0};
  for (std::size_t i = 0; i < constants_.size(); ++i) {
    double value = constants_[i];
    for (std::uint32_t k = starts_[i]; k < starts_[i + 1]; ++k) value += coefficients_[k] * sizes_mm[cells_[k]];
    if (i == 0 || (least_ ? value < best.value : value > best.value)) best = {value, i};
  }
  return best;
}

DrawEvaluator::Drawn DrawEvaluator::attain_formula(std::span<const double> sizes) const {
  Drawn best{0.0, 0};
  for (std::size_t i = 0; i < formulas_.size(); ++i) {
    const auto value = formula_value(formulas_[i], sizes);
    if (!value) return {std::numeric_limits<double>::quiet_NaN(), i};
    if (i == 0 || (least_ ? *value < best.value : *value > best.value)) best = {*value, i};
  }
  return best;
}

void DrawEvaluator::evaluate_one_by_one(std::span<const double* const> sizes_mm, std::span<double> out) const {
  std::vector<double> here(cells_needed_);
  for (std::size_t draw = 0; draw < out.size(); ++draw) {
    for (const std::size_t cell : used_) here[cell] = sizes_mm[cell][draw];
    out[draw] = attain(here).value;
  }
}

void DrawEvaluator::evaluate_many(std::span<const double* const> sizes_mm, std::span<double> out) const {
  FETTLE_ASSERT(sizes_mm.size() >= cells_needed_, "too few sizes");
  if (!lobes_.empty() || !formulas_.empty()) {
    evaluate_one_by_one(sizes_mm, out);
    return;
  }
  // Form by form over all draws, so that the inner loops run over neighbours in memory.
  std::vector<double> value(out.size());
  for (std::size_t i = 0; i < constants_.size(); ++i) {
    std::fill(value.begin(), value.end(), constants_[i]);
    for (std::uint32_t k = starts_[i]; k < starts_[i + 1]; ++k) {
      const double* size = sizes_mm[cells_[k]];
      for (std::size_t draw = 0; draw < out.size(); ++draw) value[draw] += coefficients_[k] * size[draw];
    }
    for (std::size_t draw = 0; draw < out.size(); ++draw) {
      out[draw] = i == 0 ? value[draw] : least_ ? std::min(out[draw], value[draw]) : std::max(out[draw], value[draw]);
    }
  }
}

}  // namespace fettle
