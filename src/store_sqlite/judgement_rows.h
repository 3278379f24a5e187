#pragma once

#include <string>
#include <vector>

#include "store/store.h"
#include "store_sqlite/connection.h"

namespace fettle::sqlite {

void keep_judgement_row(Connection& writer, const StoredJudgement& judgement);
/// In the order they were kept; those that are not as they were kept are left out.
[[nodiscard]] std::vector<StoredJudgement> judgement_rows(Connection& reader, const std::string& job);
/// Of all jobs, verified by nothing.
[[nodiscard]] std::vector<StoredJudgement> unverified_judgements(Connection& reader);

}  // namespace fettle::sqlite
