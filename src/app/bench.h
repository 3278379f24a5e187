#pragma once

#include <optional>
#include <string>

#include "catalogue/catalogue.h"
#include "form/shape_estimate.h"
#include "gauging/sizes.h"
#include "job/job.h"

namespace fettle {

/// A part of the job with its kind, the job's own layout of that kind, and its material. Needs kind and material in the catalogue.
[[nodiscard]] PartOnBench on_bench(const Job& job, const Part& part, const Catalogue& known);

/// What the limits of a kind say that its parts are made to.
[[nodiscard]] MadeTo made_to(const Job& job, const std::string& kind);

/// Largest less smallest size of a new part, counts; nothing where the limits do not give both.
[[nodiscard]] std::optional<Ratio> new_tolerance(const Job& job, const std::string& kind);

/// Expansion of gauges and masters per °C.
[[nodiscard]] Ratio gauge_expansion(const Catalogue& known);

}  // namespace fettle
