#include "app/judge_all.h"

#include <gtest/gtest.h>

#include "app/index_job.h"
#include "app/record_on_bench.h"

namespace fettle {
namespace {

class Going final : public Progress {
 public:
  explicit Going(long stop_at = -1) : stop_at_(stop_at) {}
  [[nodiscard]] bool tell(long done, long all) override {
    last = done;
    EXPECT_LE(done, all);
    return stop_at_ < 0 || done < stop_at_;
  }
  long last = 0;

 private:
  long stop_at_;
};

void take_in_copies(RecordOnBench& bench, int copies) {
  for (int i = 0; i < copies; ++i) {
    FolderTexts texts = read_folder(kExample).value();
    const std::string old = "id = \"tern-curlew-3\"";
    texts.job_toml.replace(texts.job_toml.find(old), old.size(), "id = \"tern-" + std::to_string(100 + i) + "\"");
    ASSERT_TRUE(bench.take(texts).ok());
  }
}

TEST(JudgeAll, EveryJobIsJudgedOnceWhateverTheThreads) {
  for (const std::size_t threads : {1U, 3U}) {
    RecordOnBench bench;
    take_in_copies(bench, 5);
    Going going;
    const JudgedAll first = judge_all(bench.store, {threads, false}, going);
    EXPECT_EQ(first.jobs, 5);
    EXPECT_EQ(first.judged, 5);
    EXPECT_EQ(first.compared, 0);
    EXPECT_FALSE(first.stopped);
    EXPECT_EQ(going.last, 5);
    EXPECT_EQ(bench.store.row("tern-104")->word, "beyond");
    const JudgedAll second = judge_all(bench.store, {threads, false}, going);
    EXPECT_EQ(second.judged, 0);
    EXPECT_EQ(second.skipped, 5);
  }
}

TEST(JudgeAll, IsTakenUpWhereItWasStopped) {
  RecordOnBench bench;
  take_in_copies(bench, 6);
  Going going(2);
  const JudgedAll first = judge_all(bench.store, {1, false}, going);
  EXPECT_TRUE(first.stopped);
  EXPECT_GE(first.judged, 2);
  EXPECT_LT(first.judged, 6);
  Going on;
  const JudgedAll second = judge_all(bench.store, {1, false}, on);
  EXPECT_EQ(second.skipped, first.judged);
  EXPECT_EQ(second.judged, 6 - first.judged);
}

TEST(JudgeAll, SaysWhatAnEarlierVersionGaveOtherwise) {
  RecordOnBench bench;
  take_in_copies(bench, 2);
  // An earlier version gave bore 3 as within, had a limit more, and knew nothing of bore 1's taper.
  const RecordedJob recorded = bench.recorded("tern-100");
  std::vector<VerdictLine> lines = index_job(bench.store, recorded).lines;
  for (VerdictLine& each : lines) {
    if (each.part == "bore-3" && each.limit == "bore-service") each.word = "within";
  }
  std::erase_if(lines, [](const VerdictLine& each) { return each.part == "bore-1" && each.limit == "bore-taper"; });
  lines.push_back({"bore-1", "bore-finish", "within", "", ""});
  bench.store.keep_judgement({"tern-100", "0.0.9", static_cast<std::int64_t>(recorded.events.size()), recorded.accepted.back().hash,
                              verdict_lines_json(lines), ""});
  Going going;
  const JudgedAll all = judge_all(bench.store, {2, true}, going);
  EXPECT_EQ(all.compared, 1);
  ASSERT_EQ(all.changed.size(), 3U);
  EXPECT_EQ(all.changed[0].now.word, "") << "bore-finish is judged no longer";
  EXPECT_EQ(all.changed[1].before.word, "");
  EXPECT_EQ(all.changed[1].now.limit, "bore-taper");
  EXPECT_EQ(all.changed[2].before.word, "within");
  EXPECT_EQ(all.changed[2].now.word, "too-close");
  EXPECT_EQ(all.changed[2].program, "0.0.9");
}

TEST(JudgeAll, ARunThatGoesOnTellsWhatTheStoppedOneFound) {
  RecordOnBench bench;
  take_in_copies(bench, 1);
  const RecordedJob recorded = bench.recorded("tern-100");
  std::vector<VerdictLine> lines = index_job(bench.store, recorded).lines;
  for (VerdictLine& each : lines) {
    if (each.part == "bore-3" && each.limit == "bore-service") each.word = "within";
  }
  bench.store.keep_judgement({"tern-100", "0.0.9", static_cast<std::int64_t>(recorded.events.size()), recorded.accepted.back().hash,
                              verdict_lines_json(lines), ""});
  Going going;
  const JudgedAll all = judge_all(bench.store, {1, false}, going);
  EXPECT_EQ(all.skipped, 1);
  EXPECT_EQ(all.compared, 1);
  ASSERT_EQ(all.changed.size(), 1U);
  EXPECT_EQ(all.changed[0].program, "0.0.9");
  EXPECT_EQ(judge_all(bench.store, {1, true}, going).changed.size(), 1U) << "judged again it is still compared with the other version";
}

TEST(JudgeAll, AJobThatGoesOnIsJudgedAgainAndNotComparedWithWhatItWas) {
  RecordOnBench bench;
  take_in_copies(bench, 1);
  Going going;
  ASSERT_EQ(judge_all(bench.store, {1, false}, going).judged, 1);
  const FindingSeen seen{{"bore-1", "crack", FindingWeight::condemns, "", {}}};
  ASSERT_TRUE(append(bench.store, bench.recorded("tern-100"), {seen}, bench.doing).ok());
  const JudgedAll again = judge_all(bench.store, {1, false}, going);
  EXPECT_EQ(again.judged, 1);
  EXPECT_EQ(again.compared, 0);
  EXPECT_EQ(bench.store.row("tern-100")->parts.at(0).state, "beyond");
}

TEST(JudgeAll, AJobThatCannotBeJudgedIsNamedAndListedNotJudged) {
  RecordOnBench bench;
  take_in_copies(bench, 2);
  const Reading lost{"bore-1", "nowhere", "thrust", bench.recorded("tern-100").job.readings[0].value.quantity, "first", "", {}, {}, {}, ReadingFlag::none, "", {}};
  ASSERT_TRUE(append(bench.store, bench.recorded("tern-100"), {ReadingTaken{lost}}, bench.doing).ok());
  Going going;
  const JudgedAll all = judge_all(bench.store, {2, false}, going);
  EXPECT_EQ(all.judged, 1);
  ASSERT_EQ(all.refused.size(), 1U);
  EXPECT_EQ(all.refused[0].where, "tern-100");
  EXPECT_EQ(bench.store.row("tern-100")->word, "");
  EXPECT_EQ(bench.store.row("tern-100")->parts.at(0).state, "not-judged");
}

}  // namespace
}  // namespace fettle
