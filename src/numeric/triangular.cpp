#include "numeric/triangular.h"

#include <cmath>

#include "numeric/elementary.h"

namespace fettle {
namespace {

// A pivot that lost this much of its diagonal is rounding noise.
constexpr double kLost = 1e-13;

// Plain pointers inside: these loops are the whole cost of the shape model.
void axpy(double* to, double factor, const double* from, std::size_t n) {
  for (std::size_t k = 0; k < n; ++k) to[k] += factor * from[k];
}

}  // namespace

bool factor_upper(std::span<double> matrix, std::size_t n) {
  double* const u = matrix.data();
  // Right-looking: what row k takes from the diagonal below is seen as it is taken, so the loss is judged against the start.
  double largest = 0.0;
  for (std::size_t k = 0; k < n; ++k) largest = u[k * n + k] > largest ? u[k * n + k] : largest;
  for (std::size_t k = 0; k < n; ++k) {
    double* const row = u + k * n;
    if (!(row[k] > kLost * largest)) return false;
    const double root = std::sqrt(row[k]);
    const double inverse = 1.0 / root;
    row[k] = root;
    for (std::size_t j = k + 1; j < n; ++j) row[j] *= inverse;
    for (std::size_t i = k + 1; i < n; ++i) axpy(u + i * n + i, -row[i], row + i, n - i);
  }
  return true;
}

void solve_transposed(std::span<const double> upper, std::size_t n, std::span<double> b, std::size_t columns) {
  for (std::size_t k = 0; k < n; ++k) {
    double* const row = b.data() + k * columns;
    const double inverse = 1.0 / upper[k * n + k];
    for (std::size_t j = 0; j < columns; ++j) row[j] *= inverse;
    for (std::size_t i = k + 1; i < n; ++i) axpy(b.data() + i * columns, -upper[k * n + i], row, columns);
  }
}

void solve_upper(std::span<const double> upper, std::size_t n, std::span<double> b, std::size_t columns) {
  for (std::size_t k = n; k-- > 0;) {
    double* const row = b.data() + k * columns;
    for (std::size_t i = k + 1; i < n; ++i) axpy(row, -upper[k * n + i], b.data() + i * columns, columns);
    const double inverse = 1.0 / upper[k * n + k];
    for (std::size_t j = 0; j < columns; ++j) row[j] *= inverse;
  }
}

void add_gram(std::span<const double> a, std::size_t rows, std::size_t columns, std::span<double> sum) {
  for (std::size_t k = 0; k < rows; ++k) {
    const double* const row = a.data() + k * columns;
    for (std::size_t i = 0; i < columns; ++i) axpy(sum.data() + i * columns + i, row[i], row + i, columns - i);
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
