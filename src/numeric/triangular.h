#pragma once

#include <cstddef>
#include <span>

namespace fettle {

// Small dense factorisations whose sums run in a stated order, so that every machine gives the same bits whatever its vector units
// (Eigen's order of summation follows the width of the processor's). All matrices row by row. Kept by Triangular.* against Eigen.

/// Factors the n x n covariance `matrix` into U' U, in place: only the upper triangle is read and written. Gives false if the
/// matrix is not positive definite to working accuracy (a pivot at or below 1e-13 of its own diagonal).
[[nodiscard]] bool factor_upper(std::span<double> matrix, std::size_t n);

/// Solves U' X = B in place for the columns of `b` (n x columns).
void solve_transposed(std::span<const double> upper, std::size_t n, std::span<double> b, std::size_t columns);

/// Solves U X = B in place for the columns of `b` (n x columns).
void solve_upper(std::span<const double> upper, std::size_t n, std::span<double> b, std::size_t columns);

/// Adds A' A to the upper triangle of `sum` (columns x columns), `a` being rows x columns.
void add_gram(std::span<const double> a, std::size_t rows, std::size_t columns, std::span<double> sum);

/// ln det(U' U).
[[nodiscard]] double log_determinant(std::span<const double> upper, std::size_t n);

/// to += factor * from.
inline void add_scaled(std::span<double> to, double factor, std::span<const double> from) {
  double* const out = to.data();
  const double* const in = from.data();
  for (std::size_t k = 0; k < to.size(); ++k) out[k] += factor * in[k];
}

/// In the order of the numbers. Here and not in the source, as both are called for a handful of numbers at a time.
[[nodiscard]] inline double dot(std::span<const double> a, std::span<const double> b) {
  double sum = 0.0;
  for (std::size_t k = 0; k < a.size(); ++k) sum += a[k] * b[k];
  return sum;
}

}  // namespace fettle
