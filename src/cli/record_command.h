#pragma once

#include <string>
#include <vector>

#include "cli/commands.h"
#include "cli/world.h"
#include "text/sentence.h"

namespace fettle {

/// What can be asked of a record of jobs.
struct RecordAsked {
  std::string command;
  std::string record;  ///< the file that holds it
  bool json = false;
  std::string job;
  std::string part;
  std::string event;
  std::string text;
  std::string why;
  std::string who;
  std::string folder;
  std::string corrected;
  std::string to;
  std::string file;
  std::string note;
  std::string engine;
  std::string state;
  std::string from;
  std::string until;
  std::string person;
  std::size_t skip = 0;
  std::size_t most = 50;
  std::size_t threads = 2;
  bool again = false;
};

/// Runs the command on the record.
[[nodiscard]] RunResult run_record(const RecordAsked& asked, Language language, bool terminal, const World& world);

}  // namespace fettle
