#include "form/as_measured.h"

#include "form/exact_value.h"
#include "form/lobe_gradient.h"

namespace fettle {
namespace {

void reckon_amplitude(const Expansion& expansion, const PartEstimate& estimate, AsMeasured& out) {
  for (const LobeStation& lobe : expansion.lobes) {
    std::vector<double> values;
    for (std::size_t cell : lobe.cells) {
      values.push_back(estimate.places[cell]->as_measured.to_double() / static_cast<double>(Length::kCountsPerMillimetre));
    }
    const double ovality = lobe_gradient(lobe, values).ovality;
    if (out.ovality_mm && ovality <= *out.ovality_mm) continue;
    out.ovality_mm = ovality;
    out.where = {{lobe.station}, lobe.directions};
  }
}

AsMeasured reckon(const Definition& definition, const PartGrid& grid, const PartEstimate& estimate) {
  AsMeasured out{estimate.part, definition.id, definition.dimension, {}, {}, {}, {}};
  const Result<Expansion> expansion = expand(definition, grid);
  if (!expansion.ok()) {
    out.missing = expansion.problems();
    return out;
  }
  if (expansion.value().sense == Sense::amplitude) {
    reckon_amplitude(expansion.value(), estimate, out);
    return out;
  }
  std::vector<Ratio> sizes;
  for (const auto& place : estimate.places) sizes.push_back(place ? place->as_measured : Ratio());
  const ExactValue measured = exact_value(expansion.value(), sizes);
  out.value = measured.value;
  out.where = measured.where;
  return out;
}

}  // namespace

std::vector<AsMeasured> as_measured(const PartOnBench& part, const PartEstimate& estimate, const GivenSizes& given,
                                    const std::vector<Definition>& definitions) {
  PartGrid grid{part.feature, part.layout, {}, given};
  for (const auto& place : estimate.places) grid.read.push_back(place.has_value());
  std::vector<AsMeasured> out;
  for (const Definition& definition : definitions) {
    if (definition.applies(part.feature)) out.push_back(reckon(definition, grid, estimate));
  }
  return out;
}

}  // namespace fettle
