#include "app/judged_again.h"

#include <algorithm>
#include <set>

#include "app/judge_job.h"
#include "base/assertion.h"

namespace fettle {
namespace {

bool among(const std::vector<std::string>& list, const std::string& each) { return std::find(list.begin(), list.end(), each) != list.end(); }

std::vector<std::string> parts_in_doubt(const Job& job, const std::vector<std::string>& settings) {
  std::set<std::string> read;
  for (const Kept<Reading>& each : job.readings) {
    if (among(settings, each.value.setting)) read.insert(each.value.part);
  }
  std::vector<std::string> out;
  for (const Kept<Part>& each : job.parts) {
    const Part& part = each.value;
    const bool by_member = part.members && std::any_of(part.members->begin(), part.members->end(),
                                                       [&](const Member& member) { return read.contains(member.part); });
    if (by_member || read.contains(part.id)) out.push_back(part.id);
  }
  return out;
}

JudgedAgain again(const FoundOut& found, const JudgedJob& now, const std::vector<Verdict>& before) {
  JudgedAgain out{found, settings_in_doubt(found, now.job.settings), {}, {}, {}};
  for (const Kept<Reading>& each : now.job.readings) {
    if (among(out.settings, each.value.setting)) out.readings.push_back(each.event);
  }
  out.parts = parts_in_doubt(now.job, out.settings);
  for (std::size_t i = 0; i < before.size(); ++i) {
    const Verdict& verdict = now.judgement.verdicts[i];
    FETTLE_ASSERT(before[i].part == verdict.part && before[i].limit == verdict.limit, verdict.part);
    if (among(out.parts, verdict.part) || before[i].word != verdict.word) out.verdicts.push_back({before[i], verdict});
  }
  return out;
}

}  // namespace

std::vector<JudgedAgain> judged_again(const JudgedJob& judged, const JudgeOptions& options) {
  std::vector<JudgedAgain> out;
  if (judged.job.found_out.empty()) return out;
  Job without = judged.job;
  without.found_out.clear();
  JudgeOptions only_verdicts = options;
  only_verdicts.detail = JudgeDetail::verdicts;
  only_verdicts.memory = nullptr;
  const Result<JudgedJob> before = judge_job(without, only_verdicts);
  FETTLE_ASSERT(before.ok(), judged.job.id);
  for (const Kept<FoundOut>& each : judged.job.found_out) out.push_back(again(each.value, judged, before.value().judgement.verdicts));
  return out;
}

}  // namespace fettle
