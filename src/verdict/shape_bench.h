#pragma once

#include <map>
#include <memory>
#include <optional>
#include <vector>

#include "form/expansion.h"
#include "form/shape_effects.h"
#include "verdict/doubt.h"
#include "verdict/plain_figure.h"
#include "verdict/verdict.h"

namespace fettle {

/// A characteristic of one part of a group that went through the shape model, and its bound.
struct GroupQuestion {
  const ShapeGroup* group;
  std::size_t block;
  Question plain;  ///< the same question as the plain estimate takes it
};

/// Answers questions by the shape model. One for each judgement: draws and points are made once and shared.
class ShapeBench {
 public:
  /// `points`: shared from group to group, of the seed of `accuracy`.
  ShapeBench(const Accuracy& accuracy, NormalPoints& points) : accuracy_(accuracy), points_(points) {}

  /// The chance that the characteristic keeps its bound.
  [[nodiscard]] Chance chance(const GroupQuestion& question);

  /// The estimate of the characteristic and what its doubt rests on.
  struct Unfolded {
    BestEstimate best;
    std::vector<Share> shares;  ///< of the form at `where`, largest first
  };
  /// Median and central 90 % of the characteristic itself, what moved it from the plain value of the form at `where`, and what its doubt
  /// comes from. A median is never on the other side of the bound than `chance` says: the chance is the better known of the two.
  [[nodiscard]] Unfolded unfold(const GroupQuestion& question, const Chance& chance, const Where& where);

 private:
  using Draws = std::vector<std::vector<double>>;  ///< mm, by cell
  const Draws& draws_of(const ShapeGroup& group, std::size_t block);
  ShapeEffects& effects_of(const GroupQuestion& question);
  [[nodiscard]] ChanceAccuracy wanted() const { return {accuracy_.chance_error, accuracy_.most_points}; }

  Accuracy accuracy_;
  NormalPoints& points_;
  std::map<std::pair<const ShapeGroup*, std::size_t>, Draws> draws_;
  std::map<const ShapeGroup*, ShapeEffects> effects_;
};

}  // namespace fettle
