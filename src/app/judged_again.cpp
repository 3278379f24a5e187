#include "app/judged_again.h"

#include <algorithm>
#include <cmath>
#include <map>
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

double uncertainty_of(const Size& size, const SizeSet& set) {
  double variance = 0.0;
  for (const ErrorTerm& term : size.terms) {
    const double share = term.coefficient * set.sources[term.source].standard_uncertainty;
    variance += share * share;
  }
  return std::sqrt(variance);
}

std::vector<JudgedAgain::InDoubt> readings_in_doubt(const JudgedJob& before, const JudgedJob& now, const std::vector<std::string>& settings) {
  std::map<std::string, JudgedAgain::Figures> figures;
  FETTLE_ASSERT(before.sizes.sizes.size() == now.sizes.sizes.size(), now.job.id);
  for (std::size_t i = 0; i < now.sizes.sizes.size(); ++i) {
    const Size& was = before.sizes.sizes[i];
    const Size& is = now.sizes.sizes[i];
    FETTLE_ASSERT(was.reading == is.reading, is.reading);
    figures[is.reading] = {is.estimate - was.estimate, uncertainty_of(was, before.sizes), uncertainty_of(is, now.sizes)};
  }
  std::vector<JudgedAgain::InDoubt> out;
  for (const Kept<Reading>& each : now.job.readings) {
    if (!among(settings, each.value.setting)) continue;
    const auto found = figures.find(each.event);
    out.push_back({each.event, found == figures.end() ? std::nullopt : std::optional(found->second)});
  }
  return out;
}

void compare_verdicts(const Judgement& before, const Judgement& now, JudgedAgain& out) {
  for (std::size_t i = 0; i < before.verdicts.size(); ++i) {
    const Verdict& was = before.verdicts[i];
    const Verdict& is = now.verdicts[i];
    FETTLE_ASSERT(was.part == is.part && was.limit == is.limit, is.part);
    if (among(out.parts, is.part) || was.word != is.word) out.verdicts.push_back({was, is});
  }
  std::stable_partition(out.verdicts.begin(), out.verdicts.end(), [](const auto& each) { return each.before.word != each.now.word; });
  for (std::size_t i = 0; i < now.states.size(); ++i) {
    const std::string& part = now.states[i].part;
    const bool named = std::any_of(out.verdicts.begin(), out.verdicts.end(), [&](const auto& each) { return each.now.part == part; });
    if (named || among(out.parts, part)) out.states.push_back({part, before.states[i].word, now.states[i].word});
  }
}

/// Judges once more as if this one had not been found out.
JudgedAgain again(std::size_t which, const JudgedJob& now, const JudgeOptions& options) {
  Job without = now.job;
  without.found_out.erase(without.found_out.begin() + static_cast<std::ptrdiff_t>(which));
  const Result<JudgedJob> judged = judge_job(without, options);
  FETTLE_ASSERT(judged.ok(), now.job.id);
  const JudgedJob& before = judged.value();
  const FoundOut& found = now.job.found_out[which].value;
  JudgedAgain out{found, settings_in_doubt(found, now.job.settings), {}, {}, {}, {}, before.judgement.joint.word, now.judgement.joint.word};
  out.readings = readings_in_doubt(before, now, out.settings);
  out.parts = parts_in_doubt(now.job, out.settings);
  compare_verdicts(before.judgement, now.judgement, out);
  return out;
}

}  // namespace

std::vector<JudgedAgain> judged_again(const JudgedJob& judged, const JudgeOptions& options) {
  JudgeOptions only_verdicts = options;
  only_verdicts.detail = JudgeDetail::verdicts;
  only_verdicts.memory = nullptr;
  std::vector<JudgedAgain> out;
  for (std::size_t i = 0; i < judged.job.found_out.size(); ++i) out.push_back(again(i, judged, only_verdicts));
  return out;
}

}  // namespace fettle
