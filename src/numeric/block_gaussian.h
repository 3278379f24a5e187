#pragma once

#include <cstddef>
#include <memory>
#include <vector>

namespace fettle {

/// What is known of one block before anything is read: x = mean + shared ζ + own, ζ ~ N(0, I) common to all blocks, own ~ N(0, own)
/// independent from block to block. The same for every block.
struct BlockPrior {
  std::size_t cells;
  std::size_t shared_columns;
  std::vector<double> mean;    ///< cells
  std::vector<double> shared;  ///< cells x shared_columns
  std::vector<double> own;     ///< cells x cells, symmetric, both triangles filled
};

/// What was read of one block: value = x[cell] + errors ε + noise, ε ~ N(0, I) common to all blocks and independent of ζ.
struct BlockRows {
  std::vector<std::size_t> cell;  ///< by row
  std::vector<double> value;
  std::vector<double> noise;      ///< rows x rows, covariance of what no other block shares; positive definite
  std::vector<double> errors;     ///< rows x error columns
  bool operator==(const BlockRows&) const = default;
};

/// One block after everything was read: x = mean + gain η + own, η ~ N(0, I) common to all blocks (ζ and ε whitened).
struct BlockPosterior {
  std::vector<double> mean;  ///< cells
  std::vector<double> gain;  ///< cells x (shared + error columns)
  std::vector<double> own;   ///< cells x cells
  /// own + gain gain': everything that is not known of the block. May be left empty by those who make one by hand.
  std::vector<double> whole = {};
};

/// own + gain gain' of a block of `cells` with `common` columns of gain.
[[nodiscard]] std::vector<double> whole_covariance(const std::vector<double>& own, const std::vector<double>& gain, std::size_t cells,
                                                   std::size_t common);

/// How one block or reading lies with respect to all the others: the law of what was read, given the rest.
struct LeftOut {
  double chi_squared;  ///< of the block's rows given all other blocks
  double log_density;
  std::vector<double> standardised;  ///< by row: (read - expected) / sd, given every other row
  std::vector<double> row_log_density;
  std::vector<double> row_sd;        ///< by row: that sd
  std::shared_ptr<const std::vector<double>> precision = {};  ///< rows x rows: the block's part of V^-1 of all rows; shared by blocks that are alike
};

struct GaussianPosterior {
  double log_likelihood;  ///< ln p(values)
  double chi_squared;     ///< of all rows
  std::vector<double> common;    ///< mean of (ζ, ε)
  std::vector<double> whitener;  ///< upper triangular: (ζ, ε) = common + whitener^-1 η; the last error column rests on the last η alone
  std::vector<BlockPosterior> blocks;
  std::vector<LeftOut> left_out;   ///< only if asked for
  std::vector<std::vector<double>> weighed;  ///< by block and row: V^-1 (value - mean): its product with cov(values, u) moves any u
};

/// Blocks that share a few unknowns, read through errors that they share as well. Values in any one unit.
/// Cost per evaluation: one factorisation of each different block and one of all shared unknowns (blocks whose cells, noise and
/// errors are the same are factored once). Needs sound shapes, else InternalError. Source: rasmussen2006 A.3 (conditioning, the
/// matrix inversion lemma). Kept by BlockGaussian.AgreesWithTheFullJointSolution.
class BlockGaussian {
 public:
  BlockGaussian(std::vector<BlockRows> blocks, std::size_t error_columns);

  /// ln p(values | prior).
  [[nodiscard]] double log_likelihood(const BlockPrior& prior);
  /// The same for the prior last asked for with one shared column multiplied by `factor`: what does not change is not factored again.
  [[nodiscard]] double log_likelihood_rescaled(std::size_t column, double factor);

  enum class Detail { estimate, with_left_out };
  [[nodiscard]] GaussianPosterior posterior(const BlockPrior& prior, Detail detail);

  /// How the readings are weighed in the mean of Σ combination · x of one block: by block and row, what one unit of a reading moves it.
  /// `prior` must be the one last asked for.
  [[nodiscard]] std::vector<std::vector<double>> reading_weights(const BlockPrior& prior, std::size_t block,
                                                                 const std::vector<double>& combination);

  [[nodiscard]] std::size_t blocks() const { return blocks_.size(); }
  [[nodiscard]] const BlockRows& rows(std::size_t block) const { return blocks_[block]; }
  [[nodiscard]] std::size_t error_columns() const { return error_columns_; }

 private:
  /// Blocks with the same cells, noise and errors.
  struct Alike {
    std::size_t first;                 ///< a block that stands for all
    std::vector<std::size_t> members;
    std::vector<double> factor;        ///< rows x rows, upper
    std::vector<double> design;        ///< U^-T (shared | errors), rows x columns
    std::vector<double> gram;          ///< design' design, upper triangle
  };
  void factor(const BlockPrior& prior);
  void factor_blocks(const BlockPrior& prior);
  void factor_system();
  [[nodiscard]] std::size_t columns(const BlockPrior& prior) const { return prior.shared_columns + error_columns_; }
  void leave_out(const Alike& alike, std::size_t columns, GaussianPosterior& out) const;
  void condition(const BlockPrior& prior, const Alike& alike, GaussianPosterior& out) const;

  std::vector<BlockRows> blocks_;
  std::size_t error_columns_;
  std::vector<Alike> alike_;
  std::vector<std::vector<double>> residual_;  ///< by block: U^-T (value - mean)
  std::size_t columns_ = 0;
  std::vector<double> gram_;                   ///< Σ design' design, upper triangle
  std::vector<double> right_;                  ///< Σ design' residual
  double blocks_log_determinant_ = 0.0;
  double square_ = 0.0;                        ///< Σ residual²
  std::size_t all_rows_ = 0;
  std::vector<double> system_;                 ///< I + gram, factored
  std::vector<double> common_;                 ///< U^-T of the right side, then the mean of the shared unknowns
  double log_likelihood_ = 0.0;
  double chi_squared_ = 0.0;
};

}  // namespace fettle
