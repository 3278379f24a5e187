#pragma once

#include <string>

#include "app/recorded_job.h"

namespace fettle {

/// Puts right what was typed. `event`: its id, or the beginning of it if no other event begins so (at least four digits).
/// Problems: record.no_such_event, record.which_event (several begin so), and those named below.
struct Correction {
  std::string event;
  std::string why;
};

/// A new reading in the place of one that stands; the old one stays in the log. `text` as it would be typed in readings.csv. Problems also:
/// record.no_reading (the event is none, or no longer stands), record.no_reason, record.same_text, those of entry for the text. Gives the new event's id.
[[nodiscard]] Result<std::string> correct_reading(Store& store, const RecordedJob& recorded, const Correction& correction, const std::string& text,
                                                  const Doing& doing);

/// The event counts no longer; of a withdrawal: what it took away counts again. Problems also: record.no_reason, record.withdrawn_already, those of fold.
[[nodiscard]] Result<std::string> withdraw(Store& store, const RecordedJob& recorded, const Correction& correction, const Doing& doing);

}  // namespace fettle
