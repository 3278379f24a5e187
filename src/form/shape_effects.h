#pragma once

#include "form/shape_group.h"

namespace fettle {

/// What one sum's doubt and estimate rest on, at the heaviest node.
struct SumEffects {
  std::vector<std::pair<std::size_t, double>> by_source;  ///< source, variance (µm²) that its error leaves in the estimate; readings too
  double unseen;        ///< variance of what no reading shows: texture and shape between what was read
  double shared_shift;  ///< µm that the errors common to several places move the estimate by, against taking them at face value
};

/// Takes sums of one group apart. Made once for a group, as the model is factored anew.
class ShapeEffects {
 public:
  explicit ShapeEffects(const ShapeGroup& group);
  [[nodiscard]] SumEffects of(std::size_t block, const CellSum& sum);

 private:
  [[nodiscard]] double shared_shift(std::size_t block, const CellSum& sum) const;

  const ShapeGroup& group_;
  BlockGaussian model_;
  BlockPrior law_;
  std::vector<double> mean_;  ///< by source, in units of its sd
};

}  // namespace fettle
