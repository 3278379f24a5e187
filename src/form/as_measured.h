#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/problem.h"
#include "catalogue/definition.h"
#include "form/evaluate.h"
#include "form/expand.h"
#include "form/group_estimate.h"

namespace fettle {

/// What a notebook would give for one definition on one part: exact, with the place it comes from; or what is missing.
struct AsMeasured {
  std::string part;
  std::string definition;
  ResultDimension dimension;
  std::optional<Ratio> value;      ///< counts of 0.1 nm, or a plain ratio
  Where where;
  std::vector<InnerValue> inner;   ///< by direction or by station, where the definition has such
  Problems missing;            ///< what is needed, if there is no value
};

/// Every definition that applies to the part's feature and kind, in the order of the catalogue.
[[nodiscard]] std::vector<AsMeasured> as_measured(const PartOnBench& part, const PartEstimate& estimate,
                                                  const GivenSizes& given, const std::vector<Definition>& definitions);

}  // namespace fettle
