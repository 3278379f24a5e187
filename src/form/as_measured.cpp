#include "form/as_measured.h"

#include "form/unfit.h"

namespace fettle {
namespace {

AsMeasured reckon(const Definition& definition, const Result<Expansion>& expansion, const PartGrid& grid, const std::string& part,
                  const std::vector<std::optional<Ratio>>& sizes) {
  AsMeasured out{part, definition.id, definition.dimension, {}, {}, {}, {}};
  if (!expansion.ok()) {
    out.missing = expansion.problems();
    return out;
  }
  out.missing = unfit_problems(definition, grid, expansion.value(), sizes);
  if (!out.missing.empty()) return out;
  ExactValue measured = evaluate_exact(expansion.value(), sizes);
  out.value = measured.value;
  out.where = std::move(measured.where);
  out.inner = std::move(measured.inner);
  return out;
}

}  // namespace

std::vector<AsMeasured> Measuring::of(const PartOnBench& part, const PartEstimate& estimate, const GivenSizes& given) {
  PartGrid grid{part.feature, part.layout, {}, given};
  for (const auto& place : estimate.places) grid.read.push_back(place.has_value());
  if (grid != grid_ || kind_ != part.part.kind) {
    expanded_.clear();
    for (const Definition& definition : definitions_) {
      if (definition.applies(part.feature) && definition.is_for(part.part.kind)) expanded_.push_back({&definition, expand(definition, grid)});
    }
    grid_ = std::move(grid);
    kind_ = part.part.kind;
  }
  const auto sizes = measured_sizes(estimate);
  std::vector<AsMeasured> out;
  for (const Expanded& each : expanded_) out.push_back(reckon(*each.definition, each.expansion, *grid_, estimate.part, sizes));
  return out;
}

}  // namespace fettle
