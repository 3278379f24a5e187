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

/// Parts under every definition that applies to their feature and kind. Like parts read at the same places share what was expanded.
class Measuring {
 public:
  explicit Measuring(const std::vector<Definition>& definitions) : definitions_(definitions) {}

  /// In the order of the catalogue.
  [[nodiscard]] std::vector<AsMeasured> of(const PartOnBench& part, const PartEstimate& estimate, const GivenSizes& given);

 private:
  struct Expanded {
    const Definition* definition;
    Result<Expansion> expansion;
  };
  const std::vector<Definition>& definitions_;
  std::string kind_;
  std::optional<PartGrid> grid_;
  std::vector<Expanded> expanded_;  ///< on that grid
};

}  // namespace fettle
