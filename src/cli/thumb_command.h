#pragma once

#include <string>

#include "cli/commands.h"
#include "job/job.h"
#include "text/sentence.h"

namespace fettle {

/// What `fettle thumb` was asked for; sizes as typed, empty where none is given.
struct ThumbAsked {
  std::string about;  ///< a kind of part or another thing; empty: all rules
  std::string diameter;
  std::string length;
  std::string radius;
  std::string growth;
  std::string new_size;
  bool json = false;
  std::string job = {};     ///< a folder; with a record, the id of a job in it; empty: no job's
  std::string accept = {};  ///< id of an offer
  std::string by = {};      ///< who accepts it
};

/// Problems: cli.no_thumb_rule; those of a typed length (entry.*); limits.thumb_size_not_positive.
[[nodiscard]] RunResult run_thumb(const ThumbAsked& asked, Language language);

/// What the job is offered, or with `accept` the lines of job.toml for one offer. `command`: as it was asked for, without `--accept`. Problems:
/// cli.no_thumb_offer, cli.thumb_offer_missing, cli.thumb_by_nobody.
[[nodiscard]] RunResult run_thumb_offers(const ThumbAsked& asked, const Job& job, const std::string& command, Language language);

/// "No limit for taper (cylinder bore). Rules of thumb ...: fettle thumb --job ...", for a kind or, if it is empty, for all; nothing where the job
/// lacks none that a rule of thumb would give. It does not name the job: of the same readings a folder and a record say the same.
[[nodiscard]] std::string no_limit_line(const Job& job, const std::string& kind, Language language);

}  // namespace fettle
