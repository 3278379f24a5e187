#pragma once

#include <optional>
#include <vector>

#include "form/expansion.h"

namespace fettle {

/// One item of the outermost max or min: the taper along one direction, the out-of-round at one station.
struct InnerValue {
  std::optional<std::size_t> station;
  std::optional<std::size_t> direction;
  Ratio value;
  Where where;
  bool operator==(const InnerValue&) const = default;
};

/// What a notebook would give. Length: counts of 0.1 nm; ratio: a pure number.
struct ExactValue {
  Ratio value;
  Where where;                    ///< of the form that attains it; of several that do, the first in the order of the layout
  std::vector<InnerValue> inner;  ///< empty where the definition has no outermost max or min
  bool operator==(const ExactValue&) const = default;
};

/// Exact sizes in counts by cell; every cell of `expansion.used` must be there, and of a formula unfit_problems (unfit.h) must
/// have found none. An ovality has no exact fraction: it is
/// reckoned in double and rounded once to a whole count; nor has a formula, which is rounded likewise, what is no length to 1e-9.
[[nodiscard]] ExactValue evaluate_exact(const Expansion& expansion, const std::vector<std::optional<Ratio>>& sizes_counts);

}  // namespace fettle
