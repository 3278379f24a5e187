#include "numeric/block_gaussian.h"

#include <gtest/gtest.h>

#include <Eigen/Cholesky>
#include <Eigen/Core>
#include <Eigen/LU>
#include <algorithm>
#include <cmath>

#include "numeric/draws.h"
#include "numeric/triangular.h"

namespace fettle {
namespace {

using Matrix = Eigen::MatrixXd;
using Vector = Eigen::VectorXd;

Matrix random_matrix(Generator& generator, Eigen::Index rows, Eigen::Index columns) {
  Matrix out(rows, columns);
  for (Eigen::Index i = 0; i < rows; ++i) {
    for (Eigen::Index k = 0; k < columns; ++k) out(i, k) = generator.normal();
  }
  return out;
}

std::vector<double> flat(const Matrix& matrix) {
  std::vector<double> out;
  for (Eigen::Index i = 0; i < matrix.rows(); ++i) {
    for (Eigen::Index k = 0; k < matrix.cols(); ++k) out.push_back(matrix(i, k));
  }
  return out;
}

TEST(Triangular, AgreesWithALibrary) {
  Generator generator(3, 1);
  const Matrix a = random_matrix(generator, 9, 9);
  const Matrix covariance = a * a.transpose() + Matrix::Identity(9, 9);
  std::vector<double> upper = flat(covariance);
  ASSERT_TRUE(factor_upper(upper, 9));
  const Matrix expected = covariance.llt().matrixU();
  for (Eigen::Index i = 0; i < 9; ++i) {
    for (Eigen::Index k = i; k < 9; ++k) EXPECT_NEAR(upper[static_cast<std::size_t>(i * 9 + k)], expected(i, k), 1e-12);
  }
  EXPECT_NEAR(log_determinant(upper, 9), std::log(covariance.determinant()), 1e-11);
  std::vector<double> right = flat(random_matrix(generator, 9, 4));
  const Matrix b = Eigen::Map<Eigen::Matrix<double, 9, 4, Eigen::RowMajor>>(right.data());
  solve_transposed(upper, 9, right, 4);
  solve_upper(upper, 9, right, 4);
  const Matrix solved = covariance.ldlt().solve(b);
  for (Eigen::Index i = 0; i < 9; ++i) {
    for (Eigen::Index k = 0; k < 4; ++k) EXPECT_NEAR(right[static_cast<std::size_t>(i * 4 + k)], solved(i, k), 1e-11);
  }
}

TEST(Triangular, SaysWhenAMatrixIsNotDefinite) {
  std::vector<double> singular = {1.0, 1.0, 1.0, 1.0};
  EXPECT_FALSE(factor_upper(singular, 2));
}

/// A case with three blocks of different readings: cells missing, cells read twice, two of the blocks alike.
struct Case {
  BlockPrior prior;
  std::vector<BlockRows> blocks;
  std::size_t errors = 2;
};

Case make_case(std::uint64_t seed) {
  Generator generator(seed, 7);
  Case out;
  const Eigen::Index cells = 5;
  const Eigen::Index shared = 3;
  const Matrix k = random_matrix(generator, cells, cells);
  out.prior = {5, 3, flat(random_matrix(generator, cells, 1)), flat(random_matrix(generator, cells, shared)),
               flat(k * k.transpose() + 0.3 * Matrix::Identity(cells, cells))};
  const std::vector<std::vector<std::size_t>> read = {{0, 1, 2, 3, 4}, {0, 0, 3}, {0, 1, 2, 3, 4}};
  for (const auto& cell : read) {
    const auto n = static_cast<Eigen::Index>(cell.size());
    const bool alike = cell.size() == 5;
    const Matrix noise = alike ? Matrix(0.5 * Matrix::Identity(n, n)) : Matrix(0.2 * Matrix::Ones(n, n) + Matrix::Identity(n, n));
    Matrix errors = Matrix::Ones(n, 2);
    if (!alike) errors.col(1) *= 0.0;
    out.blocks.push_back({cell, flat(random_matrix(generator, n, 1) * 2.0), flat(noise), flat(errors)});
  }
  return out;
}

/// The same by one covariance over all cells of all blocks and all readings.
struct Full {
  Vector y;            // value - mean
  Matrix reading;      // covariance of the readings
  Matrix cells;        // covariance of all cells
  Matrix cross;        // cells with readings
};

Full full_of(const Case& c) {
  const auto rows_of = [&](std::size_t b) { return static_cast<Eigen::Index>(c.blocks[b].cell.size()); };
  Eigen::Index rows = 0;
  for (std::size_t b = 0; b < c.blocks.size(); ++b) rows += rows_of(b);
  const auto cells = static_cast<Eigen::Index>(c.prior.cells);
  const auto map = [](const std::vector<double>& v, Eigen::Index r, Eigen::Index k) {
    return Matrix(Eigen::Map<const Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>>(v.data(), r, k));
  };
  const Matrix shared = map(c.prior.shared, cells, static_cast<Eigen::Index>(c.prior.shared_columns));
  const Matrix own = map(c.prior.own, cells, cells);
  const auto blocks = static_cast<Eigen::Index>(c.blocks.size());
  Matrix all(cells * blocks, cells * blocks);
  for (Eigen::Index i = 0; i < blocks; ++i) {
    for (Eigen::Index k = 0; k < blocks; ++k) {
      all.block(i * cells, k * cells, cells, cells) = shared * shared.transpose() + (i == k ? own : Matrix::Zero(cells, cells));
    }
  }
  Matrix pick = Matrix::Zero(rows, cells * blocks);
  Matrix errors(rows, 2);
  Matrix noise = Matrix::Zero(rows, rows);
  Vector y(rows);
  Eigen::Index row = 0;
  for (std::size_t b = 0; b < c.blocks.size(); ++b) {
    const Eigen::Index n = rows_of(b);
    noise.block(row, row, n, n) = map(c.blocks[b].noise, n, n);
    errors.block(row, 0, n, 2) = map(c.blocks[b].errors, n, 2);
    for (Eigen::Index i = 0; i < n; ++i) {
      const std::size_t cell = c.blocks[b].cell[static_cast<std::size_t>(i)];
      pick(row + i, static_cast<Eigen::Index>(b) * cells + static_cast<Eigen::Index>(cell)) = 1.0;
      y(row + i) = c.blocks[b].value[static_cast<std::size_t>(i)] - c.prior.mean[cell];
    }
    row += n;
  }
  return {y, pick * all * pick.transpose() + errors * errors.transpose() + noise, all, all * pick.transpose()};
}

TEST(BlockGaussian, AgreesWithTheFullJointSolution) {
  for (std::uint64_t seed = 1; seed <= 5; ++seed) {
    const Case c = make_case(seed);
    const Full full = full_of(c);
    BlockGaussian model(c.blocks, c.errors);
    const GaussianPosterior got = model.posterior(c.prior, BlockGaussian::Detail::with_left_out);
    const Vector weighed = full.reading.ldlt().solve(full.y);
    const double chi = full.y.dot(weighed);
    const double log_likelihood =
        -0.5 * (chi + std::log(full.reading.determinant()) + static_cast<double>(full.y.size()) * std::log(2.0 * M_PI));
    EXPECT_NEAR(got.log_likelihood, log_likelihood, 1e-10);
    EXPECT_NEAR(model.log_likelihood(c.prior), log_likelihood, 1e-10);
    EXPECT_NEAR(got.chi_squared, chi, 1e-10);
    const Vector moved = full.cross * weighed;
    const Matrix left = full.cells - full.cross * full.reading.ldlt().solve(full.cross.transpose());
    const std::size_t q = c.prior.shared_columns + c.errors;
    for (std::size_t b = 0; b < 3; ++b) {
      for (std::size_t i = 0; i < 5; ++i) {
        const auto at = static_cast<Eigen::Index>(b * 5 + i);
        EXPECT_NEAR(got.blocks[b].mean[i], c.prior.mean[i] + moved(at), 1e-10);
        for (std::size_t b2 = 0; b2 < 3; ++b2) {
          for (std::size_t k = 0; k < 5; ++k) {
            double covariance = b == b2 ? got.blocks[b].own[i * 5 + k] : 0.0;
            for (std::size_t e = 0; e < q; ++e) covariance += got.blocks[b].gain[i * q + e] * got.blocks[b2].gain[k * q + e];
            EXPECT_NEAR(covariance, left(at, static_cast<Eigen::Index>(b2 * 5 + k)), 1e-10);
          }
        }
      }
    }
  }
}

TEST(BlockGaussian, LeavingOutAgreesWithConditioningOnTheRest) {
  const Case c = make_case(11);
  const Full full = full_of(c);
  BlockGaussian model(c.blocks, c.errors);
  const GaussianPosterior got = model.posterior(c.prior, BlockGaussian::Detail::with_left_out);
  // Block 1 (rows 5, 6, 7) given the ten rows of the others, and its first row given all twelve others.
  const auto given = [&](const std::vector<Eigen::Index>& out) {
    std::vector<Eigen::Index> rest;
    for (Eigen::Index k = 0; k < full.y.size(); ++k) {
      if (std::find(out.begin(), out.end(), k) == out.end()) rest.push_back(k);
    }
    const Matrix s22 = full.reading(rest, rest);
    const Matrix s12 = full.reading(out, rest);
    const Vector mean = s12 * s22.ldlt().solve(Vector(full.y(rest)));
    const Matrix covariance = full.reading(out, out) - s12 * s22.ldlt().solve(s12.transpose());
    const Vector off = full.y(out) - mean;
    return std::pair(off, covariance);
  };
  const auto [off, covariance] = given({5, 6, 7});
  EXPECT_NEAR(got.left_out[1].chi_squared, off.dot(covariance.ldlt().solve(off)), 1e-9);
  EXPECT_NEAR(got.left_out[1].log_density,
              -0.5 * (off.dot(covariance.ldlt().solve(off)) + std::log(covariance.determinant()) + 3.0 * std::log(2.0 * M_PI)), 1e-9);
  const auto [one, variance] = given({5});
  EXPECT_NEAR(got.left_out[1].standardised[0], one(0) / std::sqrt(variance(0, 0)), 1e-9);
  EXPECT_NEAR(got.left_out[1].row_sd[0], std::sqrt(variance(0, 0)), 1e-9);
}

TEST(BlockGaussian, RescalingOneColumnIsThePriorSoRescaled) {
  Case c = make_case(6);
  BlockGaussian model(c.blocks, c.errors);
  BlockPrior wide = c.prior;
  for (std::size_t i = 0; i < 5; ++i) wide.shared[i * 3 + 1] *= 12.5;
  const double expected = model.log_likelihood(wide);
  (void)model.log_likelihood(c.prior);
  EXPECT_NEAR(model.log_likelihood_rescaled(1, 12.5), expected, 1e-9);
}

TEST(BlockGaussian, ReadingWeightsMoveTheMean) {
  Case c = make_case(4);
  BlockGaussian model(c.blocks, c.errors);
  const std::vector<double> combination = {1.0, 0.0, -2.0, 0.0, 0.5};
  (void)model.log_likelihood(c.prior);
  const auto weights = model.reading_weights(c.prior, 1, combination);
  const auto mean = [&](BlockGaussian& of) {
    const GaussianPosterior posterior = of.posterior(c.prior, BlockGaussian::Detail::estimate);
    return dot(combination, posterior.blocks[1].mean);
  };
  const double before = mean(model);
  for (std::size_t b = 0; b < 3; ++b) {
    for (std::size_t i = 0; i < c.blocks[b].value.size(); ++i) {
      Case moved = c;
      moved.blocks[b].value[i] += 1.0;
      BlockGaussian after(moved.blocks, moved.errors);
      EXPECT_NEAR(mean(after) - before, weights[b][i], 1e-10);
    }
  }
}

TEST(BlockGaussian, TheLastErrorRestsOnTheLastCommonDrawAlone) {
  const Case c = make_case(2);
  BlockGaussian model(c.blocks, c.errors);
  const GaussianPosterior got = model.posterior(c.prior, BlockGaussian::Detail::estimate);
  const std::size_t q = c.prior.shared_columns + c.errors;
  // Row q-1 of whitener^-1 has its last entry alone, as the whitener is upper triangular.
  for (std::size_t k = 0; k + 1 < q; ++k) EXPECT_EQ(got.whitener[(q - 1) * q + k], 0.0);
  EXPECT_GT(got.whitener[q * q - 1], 0.0);
}

}  // namespace
}  // namespace fettle
