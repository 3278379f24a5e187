#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "app/record_keeper.h"
#include "text/sentence.h"

namespace fettle {

/// What a person asks of the program as a server.
struct ServerAsked {
  std::string record;                ///< made if there is none
  std::uint16_t port;                ///< 0: any that is free
  std::string open_to;               ///< an address of this machine, or 0.0.0.0; empty: this machine only
  std::string certificate;           ///< files; empty: one of our own
  std::string key;
  std::vector<std::string> names;    ///< by which browsers may call this machine
  std::vector<std::string> gauges;   ///< NAME=/dev/ttyX,9600,TEMPLATE
  Language language;                 ///< of what is said at the terminal
};

/// The server, as the program's main file hands it in: nothing else knows its name. Serves until it is told to stop (SIGINT, SIGTERM).
/// `say` gets each line for the person; the last one is the address to open. Problems: what kept it from beginning.
using ServerKeeper = std::function<Problems(const ServerAsked& asked, const RecordKeeper& records, Clock& clock,
                                            const std::function<void(const std::string& line)>& say)>;

}  // namespace fettle
