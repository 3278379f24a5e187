#pragma once

#include <CLI/CLI.hpp>
#include <string>
#include <vector>

#include "app/judge_job.h"
#include "cli/export_command.h"
#include "cli/gauge_study_command.h"
#include "cli/limits_command.h"
#include "cli/proof_command.h"
#include "cli/iso_fit_command.h"
#include "cli/record_command.h"
#include "cli/serve_command.h"
#include "cli/simulate_command.h"
#include "cli/strip_command.h"
#include "cli/thumb_command.h"

namespace fettle {

/// Everything that can be asked on the command line.
struct Asked {
  std::string language = "en";
  bool json = false;
  std::string catalogue;
  std::string job;  ///< a folder; with a record, the id of a job in it
  std::string rule;
  std::string level;
  std::size_t draws = usual_accuracy().draws;
  double chance_error = usual_accuracy().chance_error;
  std::string part;
  std::string limit;
  std::vector<std::string> texts;
  std::string unit;
  std::string decimal_mark;
  std::string trade_words;
  std::string plus_means;
  bool dial = false;
  bool all_definitions = false;
  std::string gauge;
  std::string what_for;
  std::string size;
  std::string master;
  SimulateAsked simulate;
  ExportAsked exported;
  std::string kind;
  ProofAsked proof;
  LimitsAsked limits;
  GaugeStudyAsked study;
  IsoFitAsked iso_fit;
  ThumbAsked thumb;
  RecordAsked record;
  ServeAsked serve;
  StartAsked start;
};

/// Tells the library every command and option, and where to put what was given.
void describe(CLI::App& app, Asked& asked);

}  // namespace fettle
