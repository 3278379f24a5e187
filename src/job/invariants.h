#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "job/job.h"

namespace fettle {

/// A rule of the record that does not hold, and of what.
struct BrokenRule {
  std::string_view rule;  ///< one of rules_of_record()
  std::string about;      ///< what is named and is not there, and which things name it, the first few and how many more
  bool operator==(const BrokenRule&) const = default;
};

/// What must hold in every job whatever happened to it. Each is a sentence in the text files, "record_rule.<id>".
///   job-is-opened, reading-has-part, reading-has-setting, setting-has-gauge, setting-has-master, finding-has-part, found-out-has-gauge, file-has-part,
///   zero-look-has-setting, temperatures-have-setting, taken-has-part, taken-has-limit, member-is-part, one-correction: no two standing readings correct the same one.
[[nodiscard]] std::vector<std::string_view> rules_of_record();

/// All that are broken, in the order of the rules.
[[nodiscard]] std::vector<BrokenRule> broken_rules(const Job& job);

}  // namespace fettle
