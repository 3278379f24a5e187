#include "app/job_memory.h"

#include <gtest/gtest.h>

#include <string>

#include "app/judge_job.h"
#include "app/open_folder.h"
#include "wire/json_text.h"

namespace fettle {
namespace {

Job whole_engine() { return open_folder(std::string(FETTLE_SOURCE_DIR) + "/tests/cli/jobs/grebe-12").value(); }

JudgedJob judged(const Job& job, JobMemory* memory = nullptr) {
  JudgeOptions options{{}, usual_accuracy()};
  options.memory = memory;
  return judge_job(job, options).value();
}

/// Compared by == alone: a difference of two such texts told line by line takes all memory.
std::string bytes(const JudgedJob& job) { return judgement_json(view_of(job)); }

/// The reading of a part, typed anew and kept under an id of its own, as a correction is.
void correct(Job& job, const std::string& part, const char* text) {
  for (Kept<Reading>& kept : job.readings) {
    if (kept.value.part != part) continue;
    const TypedQuantity& old = kept.value.quantity;
    kept.value.quantity = read_quantity(text, {old.quantity.unit, old.quantity.dimension(), DecimalMark::point, std::nullopt, old.side.has_value(), std::nullopt}, {}).value();
    kept.event = "00000000000000000000000000000000";
    return;
  }
  FAIL() << part;
}

struct Made {
  std::size_t estimates;
  std::size_t groups;
  std::size_t joints;
  std::size_t measured;
};
Made made(const JobMemory& memory) {
  return {memory.estimates.made(), memory.verdicts.groups.made(), memory.verdicts.joints.made(), memory.measured.made()};
}

/// The whole engine judged, then judged again after one reading was corrected.
struct Edited {
  Job job = whole_engine();
  JobMemory memory;
  Made before;
  JudgedJob after;

  Edited(const std::string& part, const char* text) : before(judge_first()), after(judge_edited(part, text)) {}

 private:
  Made judge_first() {
    (void)judged(job, &memory);
    return made(memory);
  }
  JudgedJob judge_edited(const std::string& part, const char* text) {
    memory.next_round();
    correct(job, part, text);
    return judged(job, &memory);
  }
};

TEST(JobMemory, TheSameJobAgainMakesNothing) {
  const Job job = whole_engine();
  JobMemory memory;
  const std::string first = bytes(judged(job, &memory));
  const Made before = made(memory);
  memory.next_round();
  EXPECT_TRUE(bytes(judged(job, &memory)) == first);
  EXPECT_EQ(made(memory).estimates, before.estimates);
  EXPECT_EQ(made(memory).groups, before.groups);
  EXPECT_EQ(made(memory).joints, before.joints);
  EXPECT_EQ(made(memory).measured, before.measured);
}

TEST(JobMemory, OneEditJudgesAgainOnlyWhatItTouches) {
  const Edited edited("spring-17", "47.10 mm");
  const auto& [job, memory, before, after] = edited;
  EXPECT_EQ(made(memory).estimates, before.estimates) << "no shape rests on a spring";
  EXPECT_EQ(made(memory).groups, before.groups + 1) << "the springs";
  EXPECT_EQ(made(memory).joints, before.joints);
  EXPECT_EQ(made(memory).measured, before.measured + 1);
  EXPECT_TRUE(bytes(after) == bytes(judged(job))) << "the same to the bit as judged from nothing";
  const auto spring = std::find_if(after.judgement.states.begin(), after.judgement.states.end(), [](const auto& each) { return each.part == "spring-17"; });
  EXPECT_EQ(spring->word, StateWord::beyond);
}

TEST(JobMemory, AnEditOfABoreTouchesTheBoresAlone) {
  const Edited edited("bore-5", "40 acw");
  const auto& [job, memory, before, after] = edited;
  // Bores, mains and pins share a thermometer, but it moves none of them by as much as is worth telling.
  EXPECT_EQ(made(memory).groups, before.groups + 1);
  EXPECT_EQ(made(memory).measured, before.measured + 1);
  EXPECT_TRUE(bytes(after) == bytes(judged(job)));
}

TEST(JobMemory, ALimitOfItsKindJudgesAGroupAgain) {
  Job job = whole_engine();
  JobMemory memory;
  const JudgedJob first = judged(job, &memory);
  const Made before = made(memory);
  memory.next_round();
  const auto limit = std::find_if(job.limits.begin(), job.limits.end(), [](const auto& each) { return each.value.id == "spring-free"; });
  ASSERT_NE(limit, job.limits.end());
  limit->value.bound = read_quantity("49 mm", {std::nullopt, Dimension::length, DecimalMark::point, std::nullopt, false, std::nullopt}, {}).value();
  const JudgedJob after = judged(job, &memory);
  EXPECT_EQ(made(memory).groups, before.groups + 1);
  EXPECT_EQ(made(memory).measured, before.measured);
  EXPECT_TRUE(bytes(after) != bytes(first));
  EXPECT_TRUE(bytes(after) == bytes(judged(job)));
}

TEST(JobMemory, AGroupIsJudgedTheSameWhateverElseIsInTheJob) {
  const JudgedJob whole = judged(whole_engine());
  Job job = whole_engine();
  std::erase_if(job.readings, [](const auto& each) { return !each.value.part.starts_with("spring") && !each.value.part.starts_with("chamber"); });
  const JudgedJob alone = judged(job);
  std::size_t compared = 0;
  for (const Verdict& verdict : alone.judgement.verdicts) {
    if (!verdict.part.starts_with("spring") && !verdict.part.starts_with("chamber")) continue;
    const auto beside = std::find_if(whole.judgement.verdicts.begin(), whole.judgement.verdicts.end(),
                                     [&](const Verdict& each) { return each.part == verdict.part && each.limit == verdict.limit; });
    EXPECT_EQ(beside->doubt->standard_uncertainty, verdict.doubt->standard_uncertainty) << verdict.part;
    EXPECT_EQ(beside->plain->value, verdict.plain->value) << verdict.part << verdict.limit;
    ++compared;
  }
  EXPECT_EQ(compared, 24U * 5U + 12U);
}

}  // namespace
}  // namespace fettle
