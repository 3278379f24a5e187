#include "app/known_things.h"

#include <gtest/gtest.h>

#include <string>

#include "app/judge_job.h"
#include "app/open_folder.h"

namespace fettle {
namespace {

Job pair() { return open_folder(std::string(FETTLE_SOURCE_DIR) + "/tests/cli/jobs/bore-and-piston").value(); }

Kept<Part>& assembly(Job& job) {
  return *std::find_if(job.parts.begin(), job.parts.end(), [](const auto& each) { return each.value.members.has_value(); });
}

TEST(KnownThings, AJobOfTheImporterHasNothingUnknown) { EXPECT_TRUE(unknown_things(pair(), catalogue()).empty()); }

TEST(KnownThings, ALogThatNamesWhatIsNotThereIsToldAllAtOnce) {
  Job job = pair();
  assembly(job).value.members->front().part = "bore-9";
  job.parts.front().value.kind = "nobody-s-kind";
  job.parts.front().value.material = "unobtainium";
  job.limits.front().value.definition = "oor-99";
  const Result<JudgedJob> judged = judge_job(job, {{}, usual_accuracy()});
  ASSERT_FALSE(judged.ok());
  std::vector<std::string> codes;
  for (const Problem& each : judged.problems()) codes.push_back(each.code);
  EXPECT_EQ(codes, (std::vector<std::string>{"app.unknown_kind", "app.unknown_material", "app.member_missing", "app.unknown_definition"}));
}

TEST(KnownThings, AnAssemblyIsNoMemberOfAnother) {
  Job job = pair();
  Kept<Part>& whole = assembly(job);
  whole.value.members->front().part = whole.value.id;
  const Problems problems = unknown_things(job, catalogue());
  ASSERT_EQ(problems.size(), 1U);
  EXPECT_EQ(problems.front().code, "app.member_is_assembly");
}

}  // namespace
}  // namespace fettle
