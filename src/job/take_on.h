#pragma once

#include "job/events.h"
#include "job/job.h"

namespace fettle {

/// Takes one more event into the fold of all before it, so that it equals the fold of them all. `event` has an id that the log does not
/// have yet. False, and the job as it was: only fold can tell what the job is now (something is withdrawn, an id is taken, what a reading
/// corrects is not standing, a closing zero moves into the middle).
[[nodiscard]] bool take_on(Job& job, const EventEnvelope& event);

}  // namespace fettle
