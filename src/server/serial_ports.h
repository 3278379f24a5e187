#pragma once

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "server/gauge_port.h"

namespace fettle {

/// What comes in on serial ports. A port that cannot be opened, or that was pulled out, is tried again each second.
class SerialPorts {
 public:
  virtual ~SerialPorts() = default;
  SerialPorts(const SerialPorts&) = delete;
  SerialPorts& operator=(const SerialPorts&) = delete;

  /// Both are called by the thread that runs it.
  struct Told {
    std::function<void(const std::string& port, const std::string& line)> line;
    std::function<void(const std::string& port, bool there)> there;
  };
  [[nodiscard]] static std::unique_ptr<SerialPorts> watch(const std::vector<GaugePort>& ports, Told told);

  /// Until `stop`.
  virtual void run() = 0;
  /// From any thread.
  virtual void stop() = 0;

 protected:
  SerialPorts() = default;
};

}  // namespace fettle
