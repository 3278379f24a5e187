#pragma once

#include <string>
#include <vector>

#include "job/job.h"

namespace fettle {

/// A study takes the place of an earlier one of the same gauge and person.
void keep_study(Job& job, Kept<StudiedGauge> study);

/// Keeps who entered a reading; every other event leaves the job as it is.
void keep_reader(Job& job, const EventEnvelope& event);

/// Who read the gauge: the one who called it out, else the one who entered it; empty where nobody says so.
[[nodiscard]] std::string reader_of(const Job& job, const Kept<Reading>& reading);

/// The studies that stand for readings of a part, in their order.
[[nodiscard]] std::vector<const StudiedGauge*> studies_of(const Job& job, const std::string& part);

}  // namespace fettle
