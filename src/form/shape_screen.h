#pragma once

#include <utility>
#include <vector>

#include "form/shape_fit.h"
#include "form/shape_rows.h"

namespace fettle {

/// Block and row.
using RowPlace = std::pair<std::size_t, std::size_t>;

/// How far off a reading may be that is taken for a mistake: sd in µm of what it gets as noise of its own. Common practice, no source.
inline constexpr double kMistakeUm = 40.0;

/// The rows, some of them worth little: `kMistakeUm` of noise more, whose width keeps their density in the evidence.
[[nodiscard]] std::vector<BlockRows> worth_little(std::vector<BlockRows> rows, const std::vector<RowPlace>& mistaken);

/// One normal law of a mixture; the logarithms of the weights carry the density of what was read elsewhere, so that mixtures made under
/// different assumptions can be put side by side.
struct ForecastPart {
  double log_weight;
  double mean;
  double sd;
};
/// What an honest reading would show at a place, given everything else that was read. µm of the model, or mm where the maker says so.
using Forecast = std::vector<ForecastPart>;

/// ln Σ e^x. Nothing in `all`: −1e300.
[[nodiscard]] double log_sum(const std::vector<double>& all);

/// The readings of a group as one asks each of them whether it is honest: fitted once, with some rows worth little.
class ShapeScreen {
 public:
  /// A single part by textbook profiles, as it would teach the fit its own mistakes. Needs a row at least.
  ShapeScreen(const ShapeKnowledge& knowledge, const ShapeRows& rows, ShapeFreedom freedom, std::vector<RowPlace> mistaken);

  /// Of the row given all others, as if it were honest; those of `mistaken` among the others are worth little.
  [[nodiscard]] Forecast forecast(const RowPlace& at) const;

  /// ln of how much likelier all readings were if these rows of one block had shown so much more (µm), the rows themselves taken as honest:
  /// exp(−αᵀΔ − ½ ΔᵀPΔ) at each node, with α = V⁻¹(y − μ) and P the block's part of V⁻¹: exact for one block, whose rows alone move.
  [[nodiscard]] double log_shift_ratio(std::size_t block, const std::vector<std::pair<std::size_t, double>>& shifts) const;

  [[nodiscard]] double log_evidence() const { return fit_.log_evidence; }
  [[nodiscard]] const std::vector<RowPlace>& mistaken() const { return mistaken_; }

 private:
  [[nodiscard]] bool is_mistaken(const RowPlace& at) const;

  std::vector<RowPlace> mistaken_;
  BlockGaussian model_;
  ShapeFit fit_;
};

}  // namespace fettle
