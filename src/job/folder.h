#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/problem.h"
#include "job/events.h"

namespace fettle {

/// The two files of a folder that a person can write by hand, as text. `path` stands before the file names in problems.
struct FolderTexts {
  std::string path;
  std::string job_toml;
  std::string readings_csv;
};

struct Imported {
  std::vector<EventEnvelope> events;  ///< empty if there is any problem
  Problems problems;                  ///< all of them, by place; a TOML syntax error alone
};

/// Turns a hand-written folder into events. Event ids are digests of content and place in the job, never of line numbers: importing
/// twice, or after shuffling the rows, gives the same events in the same order.
[[nodiscard]] Imported import_folder(const FolderTexts& texts);

}  // namespace fettle
