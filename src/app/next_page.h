#pragma once

#include <cstdint>

#include "advice/next_acts.h"
#include "app/judge_job.h"
#include "text/sentence.h"
#include "wire/next_page_json.h"

namespace fettle {

/// What to read next in a job as it was judged.
[[nodiscard]] Advice next_reading(const JudgedJob& judged);

/// The same in words. `position`: where the log of the job ends, 0 of a folder.
[[nodiscard]] NextPage next_page(const JudgedJob& judged, const Advice& advice, std::int64_t position, Language language);

/// One act as a line: what, how long, how often it settles; of a useless one what and why not.
[[nodiscard]] std::string act_line(const NextPage::Act& act, Language language);

}  // namespace fettle
