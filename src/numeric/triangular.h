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
void add_scaled(std::span<double> to, double factor, std::span<const double> from);

[[nodiscard]] double dot(std::span<const double> a, std::span<const double> b);

}  // namespace fettle
