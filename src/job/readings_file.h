#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/problem.h"
#include "job/job_file.h"

namespace fettle {

/// A row of readings.csv as an event to be.
struct WrittenReading {
  std::string content;  ///< digest of the cells, from which the event id is made
  std::string who;
  std::string when;
  Reading reading;
};

/// What a row needs to know of its setting before its text can be read.
struct ReadingContext {
  std::string setting;
  bool on_a_dial;
  std::optional<NeedleSide> plus_means;
};

/// Reads readings.csv: columns part, station, direction, reading, unit, setting, round, order, repeat, temperature, flag, note, who,
/// when; the first four and setting must be there, in any order. Problems: those of entry/table.h and entry/typed_quantity.h,
/// job.column_missing, job.column_unknown, job.cell_empty, job.not_a_count, job.flag_unknown, job.same_row_twice, job.unit_unknown.
[[nodiscard]] std::vector<WrittenReading> read_readings_file(std::string_view text, const std::string& file, const JobFile& job,
                                                             Problems& problems);

/// The event id of a row: a digest of all its cells, in the order of reading_columns.h, and of the job.
[[nodiscard]] std::string row_digest(const std::string& job, const std::vector<std::string>& cells);

}  // namespace fettle
