#include "store_sqlite/desk_rows.h"

#include <optional>

namespace fettle::sqlite {
namespace {

std::optional<StoredDevice> device_row(Connection& reader, const std::string& id) {
  for (const auto& each : device_rows(reader)) {
    if (each.row.id == id && each.as_kept) return each.row;
  }
  return std::nullopt;
}

void write_device_row(Connection& writer, const StoredDevice& device) {
  writer
      .statement("insert into device (id, name, key_hash, paired_at, last_seen, revoked, seal) values (?, ?, ?, ?, ?, ?, ?) "
                 "on conflict (id) do update set name = excluded.name, key_hash = excluded.key_hash, paired_at = excluded.paired_at, "
                 "last_seen = excluded.last_seen, revoked = excluded.revoked, seal = excluded.seal")
      .text(device.id)
      .text(device.name)
      .text(device.key_hash)
      .text(device.paired_at)
      .text(device.last_seen)
      .number(device.revoked ? 1 : 0)
      .text(seal_of(device))
      .run();
}

}  // namespace

void keep_device_row(Connection& writer, const StoredDevice& device) {
  if (!device_row(writer, device.id)) write_device_row(writer, device);
}

bool revoke_device_row(Connection& writer, const std::string& id) {
  auto device = device_row(writer, id);
  if (!device) return false;
  device->revoked = true;
  write_device_row(writer, *device);
  return true;
}

void device_seen_row(Connection& writer, const std::string& id, const std::string& at) {
  auto device = device_row(writer, id);
  if (!device) return;
  device->last_seen = at;
  write_device_row(writer, *device);
}

std::vector<DeskRow<StoredDevice>> device_rows(Connection& reader) {
  std::vector<DeskRow<StoredDevice>> out;
  Statement rows = reader.statement("select id, name, key_hash, paired_at, last_seen, revoked, seal from device order by rowid");
  while (rows.step()) {
    StoredDevice device{rows.bytes(0), rows.bytes(1), rows.bytes(2), rows.bytes(3), rows.bytes(4), rows.integer(5) != 0};
    const bool as_kept = rows.bytes(6) == seal_of(device);
    out.push_back({std::move(device), as_kept});
  }
  return out;
}

std::int64_t keep_gauge_line_row(Connection& writer, StoredGaugeLine line) {
  writer.statement("insert into gauge_line (port, received_at, seal, bytes) values (?, ?, '', ?)").text(line.port).text(line.received_at).blob(line.bytes).run();
  line.number = writer.number("select last_insert_rowid()");
  writer.statement("update gauge_line set seal = ? where number = ?").text(seal_of(line)).number(line.number).run();
  return line.number;
}

bool drop_gauge_line_row(Connection& writer, std::int64_t number) {
  Statement gone = writer.statement("delete from gauge_line where number = ? returning number");
  bool found = false;
  gone.number(number);
  while (gone.step()) found = true;
  return found;
}

std::vector<DeskRow<StoredGaugeLine>> gauge_line_rows(Connection& reader) {
  std::vector<DeskRow<StoredGaugeLine>> out;
  Statement rows = reader.statement("select number, port, bytes, received_at, seal from gauge_line order by number");
  while (rows.step()) {
    StoredGaugeLine line{rows.integer(0), rows.bytes(1), rows.bytes(2), rows.bytes(3)};
    const bool as_kept = rows.bytes(4) == seal_of(line);
    out.push_back({std::move(line), as_kept});
  }
  return out;
}

}  // namespace fettle::sqlite
