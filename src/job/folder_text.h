#pragma once

#include <string>
#include <vector>

#include "base/problem.h"
#include "job/events.h"
#include "job/folder.h"
#include "job/readings_text.h"

namespace fettle {

/// The folder that a person could have written of a job, so that importing it gives a job that judges the same: every quantity as typed,
/// with flags, notes, who read it and when. `heading`: lines that stand as comments on top of job.toml. The path is empty.
/// Writing again what was imported gives the same bytes (without corrected readings, which were comments only).
[[nodiscard]] FolderTexts folder_texts(const Job& job, const EnteredByEvent& entered, const std::vector<std::string>& heading);

/// Who entered what, by event id, where anything is said of it.
[[nodiscard]] EnteredByEvent entered_by(const std::vector<EventEnvelope>& events);

struct WrittenFolder {
  FolderTexts texts;
  /// What the events say and the folder does not, found by reading the texts again: folder.left_out_corrected, .left_out_earlier,
  /// .left_out_entered and .left_out_files (how many), .differs (which thing).
  std::vector<Message> left_out;
  /// Why the importer refuses the texts: a zero byte in a note, two readings alike in everything. Places are in the texts.
  Problems refused;
};

/// Writes the folder of an event log and reads it again. The log stays the record. Problems: those of fold.
[[nodiscard]] Result<WrittenFolder> written_folder(const std::vector<EventEnvelope>& events);

}  // namespace fettle
