#include "store/desk_rows.h"

#include "base/digest.h"

namespace fettle {

std::string seal_of(const StoredDevice& device) {
  return long_digest({"device", device.id, device.name, device.key_hash, device.paired_at, device.last_seen, device.revoked ? "revoked" : "valid"});
}

std::string seal_of(const StoredGaugeLine& line) {
  return long_digest({"gauge line", std::to_string(line.number), line.port, line.bytes, line.received_at});
}

}  // namespace fettle
