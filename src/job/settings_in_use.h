#pragma once

#include "job/job.h"

namespace fettle {

/// Gives every setting what was seen of it while it was in use: its temperatures, the later over the earlier, and the looks at its zero.
/// The last look is the closing zero where it closes a round and no standing reading of the setting came after it; every other one is a
/// check in the middle of the setting's use, so that a round that was closed before the next one began keeps what its own end showed.
/// Of two looks with no reading between them the later one counts, and closes if either does. A closing look takes the place of a
/// closing zero that the setting was entered with.
void see_in_use(Job& job);

/// Whether a reading would make the closing zero of its setting a look in the middle, or the other way round.
[[nodiscard]] bool moves_closing_zero(const Job& job, const Reading& reading);

}  // namespace fettle
