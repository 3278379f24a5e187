#pragma once

#include "base/problem.h"
#include "catalogue/catalogue.h"
#include "job/job.h"

namespace fettle {

/// What a job names that neither it nor the catalogue has, all at once: an import of a folder refuses such things, a log of events made
/// elsewhere may hold them. Problems: app.unknown_kind, .unknown_material, .unknown_definition, .member_missing, .member_is_assembly.
[[nodiscard]] Problems unknown_things(const Job& job, const Catalogue& known);

}  // namespace fettle
