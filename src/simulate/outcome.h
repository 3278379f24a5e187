#pragma once

#include <cstddef>
#include <optional>

namespace fettle {

/// One engine whose truth is known, decided by every rule. Chances and figures are those of "good", in [0, 1].
struct Outcome {
  /// Its truth keeps all limits.
  bool good;
  /// The shape model's chance. None where the model fell back so far that it stands behind none.
  std::optional<double> ours;
  /// The flat-prior figure, which is no chance.
  std::optional<double> flat;
  /// The posterior under the very family that the engine was drawn from, where it can be had. Nobody can know more.
  std::optional<double> exact;
  /// Reading against limit: a reading equal to its limit passes, or fails.
  bool notebook_equal_passes;
  bool notebook_equal_fails;
  /// Reading against limit with the guard band of one standard uncertainty on the side of the person who passes it.
  bool guarded_passes;
  /// Range less its mean bias under pure noise, against limit.
  bool bias_corrected_passes;
  std::size_t readings;
  /// The model said that the readings do not look like wear.
  bool misfit;
};

}  // namespace fettle
