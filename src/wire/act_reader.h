#pragma once

#include <string_view>
#include <vector>

#include "base/result.h"
#include "wire/act.h"

namespace fettle {

/// So many acts at once at most.
inline constexpr std::int64_t kMostActs = 200;

// Strict: everything wrong is told at once, each with the key it stands under ("acts[3].order"). Problems: those of read_event for texts
// that are no JSON or of another shape, wire.unknown_act, wire.too_many_acts, wire.no_acts, wire.not_an_id.

/// {"acts": [...]}, acts.schema.json.
[[nodiscard]] Result<std::vector<Act>> read_acts(std::string_view body);

/// The members of a reading, without the head: what a text would mean.
[[nodiscard]] Result<ReadingAct> read_understood(std::string_view body);

/// POST /api/jobs. Problems also: those of problems_of_head; of acts they belong to each act, and are no fault of the whole.
[[nodiscard]] Result<NewEngineAct> read_new_engine(std::string_view body);

}  // namespace fettle
