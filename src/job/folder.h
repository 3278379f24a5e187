#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/problem.h"
#include "job/events.h"

namespace fettle {

/// A sheet of limits that lies in a folder: TOML, or a table (.csv).
struct FolderSheet {
  std::string file;  ///< its name in the folder
  std::string text;
};

/// The files of a folder that a person can write by hand, as text. `path` stands before the file names in problems.
struct FolderTexts {
  std::string path;
  std::string job_toml;
  std::string readings_csv;
  std::vector<FolderSheet> sheets = {};  ///< those that job.toml names
};

/// The names of the sheets that a job.toml asks for, each once, in its order; none where it cannot be read.
[[nodiscard]] std::vector<std::string> sheet_files_of(std::string_view job_toml);

struct Imported {
  std::vector<EventEnvelope> events;  ///< empty if there is any problem
  Problems problems;                  ///< all of them, by place; a TOML syntax error alone
};

/// Turns a hand-written folder into events. Event ids are digests of content and place in the job, never of line numbers: importing
/// twice, or after shuffling the rows, gives the same events in the same order.
[[nodiscard]] Imported import_folder(const FolderTexts& texts);

}  // namespace fettle
