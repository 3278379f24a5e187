#pragma once

#include <cstdint>
#include <string>

namespace fettle {

/// A phone or another machine that may reach the server from elsewhere.
struct StoredDevice {
  std::string id;
  std::string name;       ///< as the person calls it
  std::string key_hash;   ///< of its key; the key itself is nowhere but with the device
  std::string paired_at;  ///< UTC
  std::string last_seen;  ///< UTC; empty: not yet
  bool revoked;           ///< for ever
  bool operator==(const StoredDevice&) const = default;
};

/// A line that a gauge sent and that nobody has used or put aside yet.
struct StoredGaugeLine {
  std::int64_t number;  ///< grows; never given twice
  std::string port;     ///< id of the port
  std::string bytes;    ///< as they came, without the end of the line
  std::string received_at;
  bool operator==(const StoredGaugeLine&) const = default;
};

/// Digests by which a store knows that a row is as it was kept.
[[nodiscard]] std::string seal_of(const StoredDevice& device);
[[nodiscard]] std::string seal_of(const StoredGaugeLine& line);

}  // namespace fettle
