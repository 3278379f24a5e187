#include "numeric/block_gaussian.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "base/assertion.h"
#include "numeric/elementary.h"
#include "numeric/triangular.h"

namespace fettle {
namespace {

constexpr double kLogTwoPi = 1.8378770664093454836;

bool same_shape(const BlockRows& a, const BlockRows& b) {
  return a.cell == b.cell && a.noise == b.noise && a.errors == b.errors;
}

void check(const BlockRows& rows, std::size_t error_columns) {
  const std::size_t n = rows.cell.size();
  FETTLE_ASSERT(rows.value.size() == n && rows.noise.size() == n * n && rows.errors.size() == n * error_columns,
                std::to_string(n));
}

}  // namespace

std::vector<double> whole_covariance(const std::vector<double>& own, const std::vector<double>& gain, std::size_t cells,
                                     std::size_t common) {
  std::vector<double> out = own;
  for (std::size_t i = 0; i < cells; ++i) {
    const std::span<const double> row = std::span(gain).subspan(i * common, common);
    for (std::size_t k = i; k < cells; ++k) {
      out[i * cells + k] += dot(row, std::span(gain).subspan(k * common, common));
      out[k * cells + i] = out[i * cells + k];
    }
  }
  return out;
}

BlockGaussian::BlockGaussian(std::vector<BlockRows> blocks, std::size_t error_columns)
    : blocks_(std::move(blocks)), error_columns_(error_columns), residual_(blocks_.size()) {
  for (std::size_t block = 0; block < blocks_.size(); ++block) {
    check(blocks_[block], error_columns_);
    const auto found = std::find_if(alike_.begin(), alike_.end(), [&](const Alike& each) {
      return same_shape(blocks_[each.first], blocks_[block]);
    });
    if (found == alike_.end()) {
      alike_.push_back({block, {block}, {}, {}, {}});
    } else {
      found->members.push_back(block);
    }
  }
}

void BlockGaussian::factor(const BlockPrior& prior) {
  factor_blocks(prior);
  factor_system();
}

void BlockGaussian::factor_blocks(const BlockPrior& prior) {
  const std::size_t q = columns(prior);
  columns_ = q;
  gram_.assign(q * q, 0.0);
  right_.assign(q, 0.0);
  blocks_log_determinant_ = 0.0;
  square_ = 0.0;
  all_rows_ = 0;
  for (Alike& alike : alike_) {
    const BlockRows& rows = blocks_[alike.first];
    const std::size_t n = rows.cell.size();
    alike.factor.resize(n * n);
    alike.design.resize(n * q);
    for (std::size_t i = 0; i < n; ++i) {
      const double* const own = prior.own.data() + rows.cell[i] * prior.cells;
      for (std::size_t k = i; k < n; ++k) alike.factor[i * n + k] = rows.noise[i * n + k] + own[rows.cell[k]];
      double* const design = alike.design.data() + i * q;
      const double* const shared = prior.shared.data() + rows.cell[i] * prior.shared_columns;
      std::copy(shared, shared + prior.shared_columns, design);
      const double* const errors = rows.errors.data() + i * error_columns_;
      std::copy(errors, errors + error_columns_, design + prior.shared_columns);
    }
    const bool definite = factor_upper(alike.factor, n);
    FETTLE_ASSERT(definite, "block covariance of " + std::to_string(n) + " rows");
    solve_transposed(alike.factor, n, alike.design, q);
    alike.gram.assign(q * q, 0.0);
    add_gram(alike.design, n, q, alike.gram);
    const double members = static_cast<double>(alike.members.size());
    add_scaled(gram_, members, alike.gram);
    blocks_log_determinant_ += members * log_determinant(alike.factor, n);
    for (std::size_t block : alike.members) {
      std::vector<double>& residual = residual_[block];
      residual.resize(n);
      for (std::size_t i = 0; i < n; ++i) residual[i] = blocks_[block].value[i] - prior.mean[rows.cell[i]];
      solve_transposed(alike.factor, n, residual, 1);
      square_ += dot(residual, residual);
      all_rows_ += n;
      for (std::size_t i = 0; i < n; ++i) {
        add_scaled(right_, residual[i], std::span(alike.design).subspan(i * q, q));
      }
    }
  }
}

void BlockGaussian::factor_system() {
  const std::size_t q = columns_;
  system_ = gram_;
  common_ = right_;
  for (std::size_t k = 0; k < q; ++k) system_[k * q + k] += 1.0;
  const bool definite = factor_upper(system_, q);
  FETTLE_ASSERT(definite, "shared unknowns " + std::to_string(q));
  solve_transposed(system_, q, common_, 1);
  chi_squared_ = square_ - dot(common_, common_);
  log_likelihood_ = -0.5 * (chi_squared_ + blocks_log_determinant_ + log_determinant(system_, q) +
                            static_cast<double>(all_rows_) * kLogTwoPi);
}

double BlockGaussian::log_likelihood_rescaled(std::size_t column, double factor) {
  FETTLE_ASSERT(column < columns_, std::to_string(column));
  for (std::size_t k = 0; k < columns_; ++k) {
    gram_[k * columns_ + column] *= factor;
    gram_[column * columns_ + k] *= factor;
  }
  right_[column] *= factor;
  factor_system();
  return log_likelihood_;
}

double BlockGaussian::log_likelihood(const BlockPrior& prior) {
  factor(prior);
  return log_likelihood_;
}

GaussianPosterior BlockGaussian::posterior(const BlockPrior& prior, Detail detail) {
  factor(prior);
  const std::size_t q = columns(prior);
  solve_upper(system_, q, common_, 1);
  GaussianPosterior out{log_likelihood_, chi_squared_, common_, system_, {}, {}, {}};
  for (std::size_t i = 0; i < q; ++i) {
    for (std::size_t k = 0; k < i; ++k) out.whitener[i * q + k] = 0.0;
  }
  out.blocks.resize(blocks_.size());
  out.weighed.resize(blocks_.size());
  if (detail == Detail::with_left_out) out.left_out.resize(blocks_.size());
  for (const Alike& alike : alike_) {
    condition(prior, alike, out);
    if (detail == Detail::estimate) continue;
    leave_out(alike, q, out);
  }
  return out;
}

void BlockGaussian::condition(const BlockPrior& prior, const Alike& alike, GaussianPosterior& out) const {
  const BlockRows& rows = blocks_[alike.first];
  const std::size_t n = rows.cell.size();
  const std::size_t q = columns(prior);
  const std::size_t cells = prior.cells;
  // X = U^-T K[rows, all cells]: what the readings tell of every cell.
  std::vector<double> tells(n * cells);
  for (std::size_t i = 0; i < n; ++i) {
    const double* const own = prior.own.data() + rows.cell[i] * cells;
    std::copy(own, own + cells, tells.begin() + static_cast<std::ptrdiff_t>(i * cells));
  }
  solve_transposed(alike.factor, n, tells, cells);
  BlockPosterior form{{}, std::vector<double>(cells * q, 0.0), prior.own};
  for (std::size_t c = 0; c < cells; ++c) {
    const double* const shared = prior.shared.data() + c * prior.shared_columns;
    std::copy(shared, shared + prior.shared_columns, form.gain.begin() + static_cast<std::ptrdiff_t>(c * q));
  }
  const std::vector<double> prior_gain = form.gain;
  std::vector<double> whole;
  for (std::size_t i = 0; i < n; ++i) {
    const std::span<const double> told = std::span(tells).subspan(i * cells, cells);
    const std::span<const double> design = std::span(alike.design).subspan(i * q, q);
    for (std::size_t c = 0; c < cells; ++c) {
      add_scaled(std::span(form.own).subspan(c * cells, cells), -told[c], told);
      add_scaled(std::span(form.gain).subspan(c * q, q), -told[c], design);
    }
  }
  // gain U^-1: rows of the gain are right sides of U' x = gain'.
  for (std::size_t c = 0; c < cells; ++c) solve_transposed(system_, q, std::span(form.gain).subspan(c * q, q), 1);
  whole = whole_covariance(form.own, form.gain, cells, q);
  for (std::size_t block : alike.members) {
    std::vector<double> left = residual_[block];  // U^-T (value - mean - design common)
    for (std::size_t i = 0; i < n; ++i) left[i] -= dot(std::span(alike.design).subspan(i * q, q), common_);
    BlockPosterior posterior{prior.mean, form.gain, form.own, whole};
    for (std::size_t c = 0; c < cells; ++c) posterior.mean[c] += dot(std::span(prior_gain).subspan(c * q, q), common_);
    for (std::size_t i = 0; i < n; ++i) {
      add_scaled(posterior.mean, left[i], std::span<const double>(tells).subspan(i * cells, cells));
    }
    out.weighed[block] = std::move(left);
    solve_upper(alike.factor, n, out.weighed[block], 1);
    out.blocks[block] = std::move(posterior);
  }
}

std::vector<std::vector<double>> BlockGaussian::reading_weights(const BlockPrior& prior, std::size_t block,
                                                                const std::vector<double>& combination) {
  FETTLE_ASSERT(block < blocks_.size() && combination.size() == prior.cells, std::to_string(block));
  const std::size_t q = columns(prior);
  std::vector<double> by_shared(prior.shared_columns, 0.0);
  for (std::size_t c = 0; c < prior.cells; ++c) {
    add_scaled(by_shared, combination[c], std::span(prior.shared).subspan(c * prior.shared_columns, prior.shared_columns));
  }
  // Right side: U^-T of the covariance of every row with the combination; then (I - Y Y') of it over all blocks together.
  std::vector<std::vector<double>> out(blocks_.size());
  std::vector<double> told(q, 0.0);
  for (const Alike& alike : alike_) {
    const std::size_t n = blocks_[alike.first].cell.size();
    for (std::size_t b : alike.members) {
      out[b].assign(n, 0.0);
      for (std::size_t i = 0; i < n; ++i) {
        const std::size_t cell = blocks_[b].cell[i];
        out[b][i] = dot(std::span(prior.shared).subspan(cell * prior.shared_columns, prior.shared_columns), by_shared);
        if (b == block) out[b][i] += dot(std::span(prior.own).subspan(cell * prior.cells, prior.cells), combination);
      }
      solve_transposed(alike.factor, n, out[b], 1);
      for (std::size_t i = 0; i < n; ++i) add_scaled(told, out[b][i], std::span(alike.design).subspan(i * q, q));
    }
  }
  solve_transposed(system_, q, told, 1);
  solve_upper(system_, q, told, 1);
  for (const Alike& alike : alike_) {
    const std::size_t n = blocks_[alike.first].cell.size();
    for (std::size_t b : alike.members) {
      for (std::size_t i = 0; i < n; ++i) out[b][i] -= dot(std::span(alike.design).subspan(i * q, q), told);
      solve_upper(alike.factor, n, out[b], 1);
    }
  }
  return out;
}

void BlockGaussian::leave_out(const Alike& alike, std::size_t q, GaussianPosterior& out) const {
  const std::size_t n = blocks_[alike.first].cell.size();
  // (V^-1) of these blocks: U^-1 (I - Y Y') U^-T with Y = design S^-1/2.
  std::vector<double> inner(n * n, 0.0);
  std::vector<double> whitened = alike.design;
  for (std::size_t i = 0; i < n; ++i) solve_transposed(system_, q, std::span(whitened).subspan(i * q, q), 1);
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t k = 0; k < n; ++k) {
      inner[i * n + k] = (i == k ? 1.0 : 0.0) -
                         dot(std::span<const double>(whitened).subspan(i * q, q), std::span<const double>(whitened).subspan(k * q, q));
    }
  }
  solve_upper(alike.factor, n, inner, n);  // U^-1 inner
  std::vector<double> precision(n * n);
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t k = 0; k < n; ++k) precision[k * n + i] = inner[i * n + k];
  }
  solve_upper(alike.factor, n, precision, n);
  const auto of_rows = std::make_shared<const std::vector<double>>(precision);
  std::vector<double> information(n);
  for (std::size_t k = 0; k < n; ++k) information[k] = precision[k * n + k];
  const bool definite = factor_upper(precision, n);
  FETTLE_ASSERT(definite, "information of a block");
  const double determinant = log_determinant(precision, n);
  std::vector<double> sd(n);
  std::vector<double> log_information(n);
  for (std::size_t k = 0; k < n; ++k) {
    sd[k] = 1.0 / std::sqrt(information[k]);
    log_information[k] = natural_log(information[k]);
  }
  for (const std::size_t block : alike.members) {
    const std::vector<double>& weighed = out.weighed[block];
    LeftOut& left = out.left_out[block];
    left = {0.0, 0.0, {}, {}, sd, of_rows};
    left.standardised.reserve(n);
    left.row_log_density.reserve(n);
    for (std::size_t k = 0; k < n; ++k) {
      const double z = weighed[k] / std::sqrt(information[k]);
      left.standardised.push_back(z);
      left.row_log_density.push_back(-0.5 * (z * z + kLogTwoPi - log_information[k]));
    }
    std::vector<double> standard = weighed;
    solve_transposed(precision, n, standard, 1);
    left.chi_squared = dot(standard, standard);
    left.log_density = 0.5 * (determinant - left.chi_squared - static_cast<double>(n) * kLogTwoPi);
  }
}

}  // namespace fettle
