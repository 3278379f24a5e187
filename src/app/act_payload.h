#pragma once

#include <optional>

#include "app/job_at_work.h"
#include "app/judge_job.h"
#include "app/understand.h"

namespace fettle {

/// What an act comes to in its job.
struct ActPayload {
  Payload payload;
  std::optional<Message> said;
  std::optional<ReadingQuestion> question;
  std::optional<QuestionAnswered> settles = {};  ///< what a second reading says of the first, to be kept beside it
};

/// Reads every text of the act; see do_acts.h for the problems. `judged`: what the program says of the parts; null where it cannot say.
[[nodiscard]] Result<ActPayload> act_payload(const JobAtWork& at_work, const Act& act, const JudgedJob* judged);

}  // namespace fettle
