#pragma once

#include <string>
#include <vector>

#include "base/result.h"
#include "store/store.h"
#include "wire/act.h"

namespace fettle {

/// What a new engine begins with: job, engine, layouts and parts, each worn. Of an engine that is told by answers the present step is not known
/// until it was seen; of groups alone it is standard. Problems: as new_engine, those of plan_engine, engine.question_twice, engine.nothing_left.
[[nodiscard]] Result<std::vector<Payload>> engine_payloads(const NewEngineAct& act);

/// Opens the rebuild of a new engine: the job, the engine, and its parts by groups, each worn and at its standard step. The job's id
/// comes from the name ("Linnet 4": linnet-4), with a number behind it where another job has it. The same act again gives the same job.
/// Problems: acts.name_empty, acts.no_groups, acts.parts_range, acts.group_twice, acts.assembly_group (made of parts that are there first),
/// job.kind_unknown, those of Store::accept_after.
[[nodiscard]] Result<std::string> new_engine(Store& store, const NewEngineAct& act);

/// "Linnet 4" -> "linnet-4"; "engine" where nothing of the name can stand in an id.
[[nodiscard]] std::string id_of_name(const std::string& name);

/// "bore-2" of a kind's second part: bores, mains, pins and pistons are called as the trade calls them.
[[nodiscard]] std::string id_of_part(const std::string& kind, std::int64_t number);

}  // namespace fettle
