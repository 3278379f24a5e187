#include "numeric/triangular.h"

#include <cmath>

#include "numeric/elementary.h"

namespace fettle {
namespace {

// A pivot that lost this much of its diagonal is rounding noise.
constexpr double kLost = 1e-13;

// These loops are the whole cost of the shape model. Every element takes its products one after the other in the order of k, whatever
// the width: a strip of a row stays in registers while they are taken, which is quicker than walking the row once for each k.

/// to[j] += Σ_k from(k)[j]·factor(k), k ascending, for a strip of `width` elements.
template <std::size_t width, class Factor>
void take_strip(double* to, const double* from, std::size_t stride, std::size_t count, const Factor& factor) {
  double sum[width];
  for (std::size_t j = 0; j < width; ++j) sum[j] = to[j];
  for (std::size_t k = 0; k < count; ++k) {
    const double f = factor(k);
    const double* const row = from + k * stride;
    for (std::size_t j = 0; j < width; ++j) sum[j] += f * row[j];
  }
  for (std::size_t j = 0; j < width; ++j) to[j] = sum[j];
}

/// The same for `n` elements.
template <class Factor>
void take_products(double* to, const double* from, std::size_t stride, std::size_t count, std::size_t n, const Factor& factor) {
  std::size_t j = 0;
  for (; j + 8 <= n; j += 8) take_strip<8>(to + j, from + j, stride, count, factor);
  for (; j + 4 <= n; j += 4) take_strip<4>(to + j, from + j, stride, count, factor);
  for (; j + 2 <= n; j += 2) take_strip<2>(to + j, from + j, stride, count, factor);
  if (j < n) take_strip<1>(to + j, from + j, stride, count, factor);
}

}  // namespace

bool factor_upper(std::span<double> matrix, std::size_t n) {
  double* const u = matrix.data();
  // What the rows above take from a diagonal is judged against the largest of the start.
  double largest = 0.0;
  for (std::size_t k = 0; k < n; ++k) largest = u[k * n + k] > largest ? u[k * n + k] : largest;
  for (std::size_t i = 0; i < n; ++i) {
    double* const row = u + i * n;
    take_products(row + i, u + i, n, i, n - i, [&](std::size_t k) { return -u[k * n + i]; });
    if (!(row[i] > kLost * largest)) return false;
    const double root = std::sqrt(row[i]);
    const double inverse = 1.0 / root;
    row[i] = root;
    for (std::size_t j = i + 1; j < n; ++j) row[j] *= inverse;
  }
  return true;
}

void solve_transposed(std::span<const double> upper, std::size_t n, std::span<double> b, std::size_t columns) {
  for (std::size_t i = 0; i < n; ++i) {
    double* const row = b.data() + i * columns;
    take_products(row, b.data(), columns, i, columns, [&](std::size_t k) { return -upper[k * n + i]; });
    const double inverse = 1.0 / upper[i * n + i];
    for (std::size_t j = 0; j < columns; ++j) row[j] *= inverse;
  }
}

void solve_upper(std::span<const double> upper, std::size_t n, std::span<double> b, std::size_t columns) {
  for (std::size_t i = n; i-- > 0;) {
    double* const row = b.data() + i * columns;
    take_products(row, row + columns, columns, n - i - 1, columns, [&](std::size_t k) { return -upper[i * n + i + 1 + k]; });
    const double inverse = 1.0 / upper[i * n + i];
    for (std::size_t j = 0; j < columns; ++j) row[j] *= inverse;
  }
}

void add_gram(std::span<const double> a, std::size_t rows, std::size_t columns, std::span<double> sum) {
  for (std::size_t i = 0; i < columns; ++i) {
    take_products(sum.data() + i * columns + i, a.data() + i, columns, rows, columns - i, [&](std::size_t k) { return a[k * columns + i]; });
  }
}

double log_determinant(std::span<const double> upper, std::size_t n) {
  // One logarithm of a product kept in range, not n of them.
  double sum = 0.0;
  double product = 1.0;
  for (std::size_t k = 0; k < n; ++k) {
    product *= upper[k * n + k];
    if (product > 1e100 || product < 1e-100) {
      sum += natural_log(product);
      product = 1.0;
    }
  }
  return 2.0 * (sum + natural_log(product));
}

}  // namespace fettle
