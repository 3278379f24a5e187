#include "form/as_measured.h"


namespace fettle {
namespace {

AsMeasured reckon(const Definition& definition, const PartGrid& grid, const PartEstimate& estimate) {
  AsMeasured out{estimate.part, definition.id, definition.dimension, {}, {}, {}, {}};
  const Result<Expansion> expansion = expand(definition, grid);
  if (!expansion.ok()) {
    out.missing = expansion.problems();
    return out;
  }
  ExactValue measured = evaluate_exact(expansion.value(), measured_sizes(estimate));
  out.value = measured.value;
  out.where = std::move(measured.where);
  out.inner = std::move(measured.inner);
  return out;
}

}  // namespace

std::vector<AsMeasured> as_measured(const PartOnBench& part, const PartEstimate& estimate, const GivenSizes& given,
                                    const std::vector<Definition>& definitions) {
  PartGrid grid{part.feature, part.layout, {}, given};
  for (const auto& place : estimate.places) grid.read.push_back(place.has_value());
  std::vector<AsMeasured> out;
  for (const Definition& definition : definitions) {
    if (definition.applies(part.feature) && definition.is_for(part.part.kind)) out.push_back(reckon(definition, grid, estimate));
  }
  return out;
}

}  // namespace fettle
