#pragma once

#include <string>
#include <vector>

#include "base/message.h"
#include "gauging/part.h"
#include "job/job.h"

namespace fettle {

/// What people call the job; its id where it has no name.
[[nodiscard]] std::string name_of(const Job& job);

// How people call parts, as messages: "bore 2", "bores 1, 2 and 4", "Cylinder bores". A part without a position goes by its id.

[[nodiscard]] Message part_message(const Part& part);
/// `parts`: of one kind, one at least.
[[nodiscard]] Message parts_message(const std::vector<const Part*>& parts);
/// "bores 1 and 2", "main journal 2": neighbours of one kind together.
[[nodiscard]] std::vector<Message> parts_by_kind(const std::vector<const Part*>& parts);
[[nodiscard]] Message group_message(const std::string& kind);
/// "a, b and c"; one at least.
[[nodiscard]] Message and_message(const std::vector<std::string>& words);

[[nodiscard]] Argument part_argument(std::string name, const Part& part);

/// Nothing if there is no such part.
[[nodiscard]] const Part* part_of(const Job& job, const std::string& id);

/// Which end is number 1, which way it turns, where the thrust side lies: as far as it is known.
[[nodiscard]] std::vector<Message> engine_facts(const EngineDescribed& engine);

}  // namespace fettle
