// The engine that the speed of a whole judgement is measured on: its answer is looked at here, its time in bench/job_bench.cpp.
#include "app/sixteen_valves_on_bench.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "app/judge_job.h"
#include "job/fold.h"
#include "wire/json_text.h"

namespace fettle {
namespace {

Job sixteen_valves_job() {
  const Imported imported = import_folder(sixteen_valves::folder());
  EXPECT_TRUE(imported.problems.empty()) << imported.problems.front().code << " " << imported.problems.front().place.line.value_or(0);
  Folded folded = fold(imported.events);
  EXPECT_TRUE(folded.problems.empty());
  return std::move(folded.job);
}

JudgedJob judged(const Job& job, JobMemory* memory) {
  JudgeOptions options{{}, usual_accuracy()};
  options.memory = memory;
  const Result<JudgedJob> out = judge_job(job, options);
  if (!out.ok()) throw InternalError(out.problems().front().code);
  return out.value();
}

TEST(SixteenValves, IsTheEngineThatTheGoalSpeaksOf) {
  const Job job = sixteen_valves_job();
  EXPECT_GE(job.readings.size(), 900U);
  EXPECT_LE(job.readings.size(), 960U);
  std::set<std::string> kinds;
  for (const auto& kept : job.readings) {
    const auto part = std::find_if(job.parts.begin(), job.parts.end(), [&](const auto& each) { return each.value.id == kept.value.part; });
    kinds.insert(part->value.kind);
  }
  EXPECT_EQ(kinds.size(), 35U);
}

TEST(SixteenValves, EveryPartIsJudgedAndTheTwoWornOnesAreFound) {
  const JudgedJob job = judged(sixteen_valves_job(), nullptr);
  for (const PartState& state : job.judgement.states) {
    const bool worn = state.part == "bore-3" || state.part == "guide-7" || state.part == "stem-fit-7";
    EXPECT_EQ(state.word == StateWord::beyond, worn) << state.part;
    EXPECT_NE(state.word, StateWord::not_judged) << state.part;
  }
  // Each kind by the model that its wear calls for.
  for (const GroupEstimate& group : job.groups) {
    const Kind& kind = *catalogue().kind(group.kind);
    EXPECT_EQ(group.shape != nullptr, kind.wear.pattern != WearPattern::none) << group.kind << " " << group.parts.front().part;
  }
}

/// Types the first reading of a part anew.
void retype(Job& job, const std::string& part, const char* text) {
  const auto found = std::find_if(job.readings.begin(), job.readings.end(), [&](const auto& each) { return each.value.part == part; });
  const TypedQuantity& old = found->value.quantity;
  found->value.quantity = read_quantity(text, {old.quantity.unit, old.quantity.dimension(), DecimalMark::point, std::nullopt, false, std::nullopt}, {}).value();
}

TEST(SixteenValves, AnEditMakesAnewWhatItTouchesAndNoMore) {
  Job job = sixteen_valves_job();
  JobMemory memory;
  (void)judged(job, &memory);
  const std::size_t estimates = memory.estimates.made();
  const std::size_t groups = memory.verdicts.groups.made();
  for (const char* text : {"46.10 mm", "46.00 mm", "46.05 mm"}) {  // edit after edit, groups that nobody asks for are not forgotten
    memory.next_round();
    retype(job, "spring-7", text);
    (void)judged(job, &memory);
  }
  EXPECT_EQ(memory.estimates.made(), estimates) << "no shape rests on a spring";
  EXPECT_EQ(memory.verdicts.groups.made(), groups + 3) << "the springs, each time";
  memory.next_round();
  const std::size_t shapes = memory.estimates.all.made();
  retype(job, "guide-9", "7.05 mm");
  const JudgedJob after = judged(job, &memory);
  EXPECT_EQ(memory.estimates.all.made(), shapes + 1) << "the shape of the guides alone";
  // Nobody took the temperature, which every group shares: what the guides say of it is heard by the other worn groups, whose figures are told
  // anew. That is less than everything.
  JobMemory fresh;
  (void)judged(job, &fresh);
  EXPECT_GT(memory.estimates.made(), estimates) << "7.05 is another figure than was read before";
  EXPECT_LT(memory.estimates.made() - estimates, fresh.estimates.made());
  EXPECT_LT(memory.verdicts.groups.made() - groups - 3, fresh.verdicts.groups.made());
  EXPECT_TRUE(judgement_json(view_of(after)) == judgement_json(view_of(judged(job, nullptr)))) << "the same to the bit as judged from nothing";
}

}  // namespace
}  // namespace fettle
