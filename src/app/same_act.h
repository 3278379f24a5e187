#pragma once

#include "job/job.h"
#include "wire/act.h"

namespace fettle {

/// Whether an event holds what this act sends, so that the act is the same one again: an answer was lost. What the server itself made of it
/// does not count (the order in a round, what the program said, units that a text took from its place), nor does the device's own count,
/// which a browser may give twice. `there`: an event of the job with the act's id.
[[nodiscard]] bool same_act(const Job& job, const EventEnvelope& there, const Act& again);

}  // namespace fettle
