#include "app/bench.h"

#include <algorithm>

#include "base/assertion.h"

namespace fettle {
namespace {

constexpr std::string_view kGaugeMaterial = "steel";

}  // namespace

PartOnBench on_bench(const Job& job, const Part& part, const Catalogue& known) {
  const Kind* kind = known.kind(part.kind);
  FETTLE_ASSERT(kind != nullptr, part.kind);
  const auto chosen =
      std::find_if(job.layouts.begin(), job.layouts.end(), [&](const auto& each) { return each.value.kind == kind->id; });
  const Material* material = known.material(part.material.value_or(kind->material));
  FETTLE_ASSERT(material != nullptr, part.id);
  return {part, kind->feature, chosen == job.layouts.end() ? kind->layout : chosen->value.layout, material->expansion_per_celsius, kind->wear};
}

MadeTo made_to(const Job& job, const std::string& kind) {
  MadeTo out;
  for (const Kept<Limit>& kept : job.limits) {
    const Limit& limit = kept.value;
    if (limit.kind != kind) continue;
    if (!out.standard) out.standard = exact_length(limit.standard);
    const bool size = limit.definition == "size-1" || limit.definition == "size-3";
    if (limit.role != LimitRole::fresh || !size) continue;
    (limit.side == LimitSide::at_most ? out.largest : out.smallest) = exact_length(limit.bound);
  }
  return out;
}

std::optional<Ratio> new_tolerance(const Job& job, const std::string& kind) {
  const MadeTo made = made_to(job, kind);
  if (!made.smallest || !made.largest || *made.largest <= *made.smallest) return std::nullopt;
  return (*made.largest - *made.smallest).ratio();
}

Ratio gauge_expansion(const Catalogue& known) {
  const Material* steel = known.material(kGaugeMaterial);
  FETTLE_ASSERT(steel != nullptr, std::string(kGaugeMaterial));
  return steel->expansion_per_celsius;
}

}  // namespace fettle
