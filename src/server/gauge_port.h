#pragma once

#include <string>
#include <vector>

#include "base/result.h"
#include "entry/line_template.h"

namespace fettle {

enum class Parity { none, odd, even };

/// A serial port with a gauge on it, as a person names it: "G2=/dev/ttyUSB0,9600,{number} {unit}"; behind the baud perhaps how a letter
/// is sent: "4800/7E2" is seven bits, even parity, two stop bits (8N1 unless said).
struct GaugePort {
  std::string id;    ///< the name in small letters
  std::string name;
  std::string path;
  unsigned baud;
  unsigned data_bits;
  Parity parity;
  unsigned stop_bits;
  LineTemplate layout;
};

/// Problems: server.gauge_option, server.gauge_twice, those of LineTemplate::read.
[[nodiscard]] Result<std::vector<GaugePort>> read_gauge_ports(const std::vector<std::string>& texts);

}  // namespace fettle
