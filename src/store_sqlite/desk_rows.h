#pragma once

#include <string>
#include <vector>

#include "store/desk_rows.h"
#include "store_sqlite/connection.h"

namespace fettle::sqlite {

void keep_device_row(Connection& writer, const StoredDevice& device);
/// False: there is no such device.
[[nodiscard]] bool revoke_device_row(Connection& writer, const std::string& id);
void device_seen_row(Connection& writer, const std::string& id, const std::string& at);

[[nodiscard]] std::int64_t keep_gauge_line_row(Connection& writer, StoredGaugeLine line);
[[nodiscard]] bool drop_gauge_line_row(Connection& writer, std::int64_t number);

/// Each row, and whether it is as it was kept.
template <class Row>
struct DeskRow {
  Row row;
  bool as_kept;
};
/// In the order they were paired.
[[nodiscard]] std::vector<DeskRow<StoredDevice>> device_rows(Connection& reader);
/// The oldest first.
[[nodiscard]] std::vector<DeskRow<StoredGaugeLine>> gauge_line_rows(Connection& reader);

}  // namespace fettle::sqlite
