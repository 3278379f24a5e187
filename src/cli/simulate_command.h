#pragma once

#include <string>
#include <vector>

#include "base/progress.h"
#include "cli/commands.h"
#include "text/sentence.h"

namespace fettle {

/// What `fettle simulate` was asked for.
struct SimulateAsked {
  std::vector<std::string> families;
  std::vector<std::string> hands;
  std::string families_file;
  std::string hands_file;
  std::size_t engines = 200;
  std::size_t exact = 0;
  std::uint64_t seed = 1;
  unsigned threads = 1;
  double chance_error = 0.005;
  double wrong_pass = 1500.0;
  double wrong_fail = 450.0;
  std::string write;   ///< folder that gets the engines as job folders, in place of scores
  std::string report;  ///< folder that gets the table, the JSON and the pictures
  bool json = false;
  bool list = false;
  bool guided = false;   ///< what reading on as advised brings, in place of the scores of the first round
  double price = 0.0;    ///< of a minute, then; 0: sought for a quarter more readings
  bool mistakes = false;  ///< what is asked again, in place of verdicts
};

[[nodiscard]] RunResult run_simulate(const SimulateAsked& asked, Language language, Progress& progress);

}  // namespace fettle
