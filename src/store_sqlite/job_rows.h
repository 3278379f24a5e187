#pragma once

#include <optional>
#include <string>
#include <vector>

#include "store/index_rows.h"
#include "store_sqlite/connection.h"

namespace fettle::sqlite {

void keep_job_row(Connection& writer, const JobRow& row);
void drop_job_rows(Connection& writer);

/// The row, and whether it is as it was kept.
struct ReadRow {
  JobRow row;
  bool as_kept;
};
[[nodiscard]] std::optional<ReadRow> read_job_row(Connection& reader, const std::string& job);

/// One way in which a job can be asked for by its parts. See job_with in schema/2.sql.
struct AskedPart {
  std::string named;  ///< id of a part or a kind; empty: any
  std::string state;  ///< empty: any
  auto operator<=>(const AskedPart&) const = default;
};
/// Sorted, each once.
[[nodiscard]] std::vector<AskedPart> asked_parts(const JobRow& row);

/// In small letters, for A to Z alone.
[[nodiscard]] std::string in_small_letters(std::string text);
inline constexpr char kBetweenFields = '\x1f';

}  // namespace fettle::sqlite
