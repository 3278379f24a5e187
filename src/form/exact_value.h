#pragma once

#include <vector>

#include "form/expansion.h"

namespace fettle {

/// The figure of an expansion of linear forms at exact sizes, and the form it comes from.
struct ExactValue {
  Ratio value;
  Where where;
};

/// `sizes` in counts by cell; only used cells are looked at. Among equal forms the first counts. Not for an amplitude.
[[nodiscard]] ExactValue exact_value(const Expansion& expansion, const std::vector<Ratio>& sizes);

}  // namespace fettle
