#include "form/outside_word.h"

#include <algorithm>
#include <cmath>

#include "base/assertion.h"
#include "numeric/triangular.h"

namespace fettle {
namespace {

/// What is known before the group's own readings: precision I + information, as U' U, and its mean.
struct Before {
  std::vector<double> upper;
  std::vector<double> mean;
};

Before before(const OutsideWord& word, std::size_t n) {
  Before out{std::vector<double>(n * n, 0.0), word.pull};
  for (std::size_t k = 0; k < n; ++k) out.upper[k * n + k] = 1.0;
  add_scaled(out.upper, 1.0, word.information);
  const bool definite = factor_upper(out.upper, n);
  FETTLE_ASSERT(definite, "outside word");
  solve_transposed(out.upper, n, out.mean, 1);
  solve_upper(out.upper, n, out.mean, 1);
  return out;
}

std::vector<double> inverse(std::vector<double> matrix, std::size_t n) {
  std::vector<double> out(n * n, 0.0);
  for (std::size_t k = 0; k < n; ++k) out[k * n + k] = 1.0;
  const bool definite = factor_upper(matrix, n);
  FETTLE_ASSERT(definite, "covariance of named sources");
  solve_transposed(matrix, n, out, n);
  solve_upper(matrix, n, out, n);
  return out;
}

}  // namespace

OutsideWord together(const std::vector<OutsideWord>& words, std::size_t named) {
  OutsideWord out{std::vector<double>(named * named, 0.0), std::vector<double>(named, 0.0)};
  for (const OutsideWord& word : words) {
    if (word.pull.empty()) continue;
    add_scaled(out.information, 1.0, word.information);
    add_scaled(out.pull, 1.0, word.pull);
  }
  return out;
}

OutsideWord rounded(OutsideWord word) {
  constexpr double kParts = 128.0;
  for (std::vector<double>* each : {&word.information, &word.pull}) {
    for (double& value : *each) value = std::floor(value * kParts + 0.5) / kParts;
  }
  return word;
}

void hear(ShapeRows& rows, const OutsideWord& word) {
  const std::size_t n = rows.named_sources.size();
  if (n == 0 || word.pull.empty()) return;
  const Before known = before(word, n);
  const std::vector<double> average = average_errors(rows);
  rows.heard_shift_um += dot(std::span(average).subspan(rows.error_columns - n), known.mean);
  for (BlockRows& block : rows.blocks) {
    for (std::size_t i = 0; i < block.value.size(); ++i) {
      const std::span<double> named = std::span(block.errors).subspan((i + 1) * rows.error_columns - n, n);
      block.value[i] -= dot(named, known.mean);
      // ε = mean + U^-1 δ: the row becomes row U^-1.
      solve_transposed(known.upper, n, named, 1);
    }
  }
}

OutsideWord say(const std::vector<FittedNode>& nodes, const ShapeRows& rows, const OutsideWord& heard) {
  const std::size_t n = rows.named_sources.size();
  const Before known = before(heard.pull.empty() ? together({}, n) : heard, n);
  std::vector<double> mean(n, 0.0);
  std::vector<double> square(n * n, 0.0);
  for (const FittedNode& node : nodes) {
    const std::size_t q = node.posterior.common.size();
    // δ = (last n of common) + U^-1 η, then ε = mean + U_known^-1 δ.
    std::vector<double> value(node.posterior.common.end() - static_cast<std::ptrdiff_t>(n), node.posterior.common.end());
    solve_upper(known.upper, n, value, 1);
    add_scaled(value, 1.0, known.mean);
    std::vector<double> spread(q * q, 0.0);
    for (std::size_t k = 0; k < q; ++k) spread[k * q + k] = 1.0;
    solve_upper(node.posterior.whitener, q, spread, q);
    std::vector<double> of_named(spread.end() - static_cast<std::ptrdiff_t>(n * q), spread.end());
    solve_upper(known.upper, n, of_named, q);
    for (std::size_t i = 0; i < n; ++i) {
      mean[i] += node.weight * value[i];
      for (std::size_t k = 0; k < n; ++k) {
        square[i * n + k] += node.weight * (value[i] * value[k] + dot(std::span<const double>(of_named).subspan(i * q, q),
                                                                     std::span<const double>(of_named).subspan(k * q, q)));
      }
    }
  }
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t k = 0; k < n; ++k) square[i * n + k] -= mean[i] * mean[k];
  }
  OutsideWord out{inverse(square, n), std::vector<double>(n, 0.0)};
  for (std::size_t i = 0; i < n; ++i) out.pull[i] = dot(std::span<const double>(out.information).subspan(i * n, n), mean);
  for (std::size_t i = 0; i < n; ++i) out.information[i * n + i] -= 1.0;
  if (!heard.pull.empty()) {
    add_scaled(out.information, -1.0, heard.information);
    add_scaled(out.pull, -1.0, heard.pull);
  }
  // A mixture may be wider than what was known before; then nothing can be passed on as a Gaussian.
  for (std::size_t i = 0; i < n; ++i) {
    if (out.information[i * n + i] < 0.0) return together({}, n);
  }
  return out;
}

}  // namespace fettle
