#include "numeric/cell_sum.h"

namespace fettle {

double value_of(const CellSum& sum, std::span<const double> by_cell) {
  double value = 0.0;
  for (const auto& [cell, coefficient] : sum.terms) value += coefficient * by_cell[cell];
  return value;
}

double covariance_of(const CellSum& a, const CellSum& b, std::span<const double> covariance, std::size_t cells) {
  double sum = 0.0;
  for (const auto& [left, by_left] : a.terms) {
    for (const auto& [right, by_right] : b.terms) sum += by_left * by_right * covariance[left * cells + right];
  }
  return sum;
}

double gain_of(const CellSum& sum, std::span<const double> gain, std::size_t common, std::size_t unknown) {
  double each = 0.0;
  for (const auto& [cell, coefficient] : sum.terms) each += coefficient * gain[cell * common + unknown];
  return each;
}

SumMoments moments_of(const CellSum& sum, const BlockPosterior& block) {
  const std::size_t cells = block.mean.size();
  const std::size_t common = block.gain.size() / cells;
  SumMoments out{value_of(sum, block.mean), covariance_of(sum, sum, block.own, cells)};
  for (std::size_t c = 0; c < common; ++c) {
    const double each = gain_of(sum, block.gain, common, c);
    out.variance += each * each;
  }
  return out;
}

}  // namespace fettle
