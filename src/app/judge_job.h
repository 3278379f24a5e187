#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/job_memory.h"
#include "app/judged_again.h"
#include "base/problem.h"
#include "form/as_measured.h"
#include "form/part_shape.h"
#include "gauging/sizes.h"
#include "job/job.h"
#include "verdict/judge.h"
#include "verdict/side_by_side.h"
#include "wire/json_text.h"

namespace fettle {

/// A job with everything that was computed from it.
struct JudgedJob {
  Job job;
  std::vector<PartOnBench> parts;
  SizeSet sizes;
  std::vector<Message> notices;
  std::vector<GroupEstimate> groups;
  std::vector<AsMeasured> measured;
  std::vector<PartShape> shapes;  ///< in the order of the groups
  Judgement judgement;
  std::vector<SideBySide> side_by_side;  ///< where it was asked for
  std::vector<JudgedAgain> again;        ///< after a gauge was found out of true
};

/// verdicts: no figures under other definitions, no shape in words, no notices of the masters; for those who ask many jobs.
/// side_by_side: everything, and each limit under every definition that books use for its word.
enum class JudgeDetail { side_by_side, everything, verdicts };

struct JudgeOptions {
  std::optional<Rule> rule;  ///< nothing: the job's own
  Accuracy accuracy;
  JudgeDetail detail = JudgeDetail::everything;
  NormalPoints* points = nullptr;  ///< kept from job to job, see JudgeInput
  JobMemory* memory = nullptr;     ///< kept from edit to edit of one job; null: nothing is remembered
};

/// Runs the stages over a job: gauging, form, verdict. Any problem stops before the verdict, and all of them are given.
[[nodiscard]] Result<JudgedJob> judge_job(const Job& job, const JudgeOptions& options);

/// For writing; lives as long as the job.
[[nodiscard]] JudgedView view_of(const JudgedJob& judged);

}  // namespace fettle
