#pragma once

#include <string>
#include <vector>

#include "store/index_rows.h"
#include "store_sqlite/connection.h"

namespace fettle::sqlite {

/// A question for the ids of jobs, in their order, and what its placeholders stand for.
struct FindQuestion {
  std::string sql;
  std::vector<std::string> values;
};
[[nodiscard]] FindQuestion find_question(const FindQuery& query);

[[nodiscard]] FoundJobs find_jobs(Connection& reader, const FindQuery& query);

}  // namespace fettle::sqlite
