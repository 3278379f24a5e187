#include "app/sheet_change.h"

#include <algorithm>

#include "job/limits_of_sheets.h"

namespace fettle {
namespace {

/// The event id of what is not one yet.
const std::string kEntered = "entered";

}  // namespace

Job with_sheet(Job job, const SheetEntered& version, Problems& problems) {
  const auto old = std::find_if(job.sheets.begin(), job.sheets.end(), [&](const auto& each) { return each.value.sheet == version.sheet; });
  if (old == job.sheets.end()) {
    job.sheets.push_back({kEntered, version});
  } else {
    job.earlier_sheets.push_back(std::move(*old));
    *old = {kEntered, version};
  }
  std::erase_if(job.limits, [](const auto& each) { return each.value.origin.sheet.has_value(); });
  add_limits_of_sheets(job, problems);
  return job;
}

Result<LimitsChanged> sheet_change(const Job& job, const SheetEntered& version, const JudgeOptions& options) {
  Problems problems = sheet_id_problems(version.sheet, {});
  const Job with = with_sheet(job, version, problems);
  if (!problems.empty()) return problems;
  const Result<JudgedJob> before = judge_job(job, options);
  if (!before.ok()) return before.problems();
  const Result<JudgedJob> now = judge_job(with, options);
  if (!now.ok()) return now.problems();
  return limits_changed({before.value().job.limits, before.value().judgement}, {now.value().job.limits, now.value().judgement});
}

}  // namespace fettle
