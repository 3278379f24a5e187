#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "server/devices.h"
#include "server/gauge_desk.h"
#include "server/http.h"
#include "server/live_hub.h"
#include "server/presence.h"

namespace fettle {

/// What the server's own routes work on: itself, its devices, people and gauges at work.
struct Desk {
  std::string token;
  std::string record_name;
  std::string address;      ///< "https://192.168.1.5:8420": where other machines reach it; empty: nowhere
  std::string fingerprint;  ///< of its certificate
  Store& store;
  Devices& devices;
  Presence& presence;
  GaugeDesk& gauges;
  LiveHub& live;
  std::function<std::int64_t()> milliseconds;
};

[[nodiscard]] std::vector<HttpRoute> desk_routes(Desk& desk);

/// Where a device is paired with this code: holds the code and the certificate's fingerprint.
[[nodiscard]] std::string pairing_address(const Desk& desk, const std::string& code);

}  // namespace fettle
