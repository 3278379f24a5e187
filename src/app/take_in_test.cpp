#include "app/take_in.h"

#include <gtest/gtest.h>

#include "app/correct.h"
#include "app/record_on_bench.h"

namespace fettle {
namespace {

const std::string kJob = "tern-curlew-3";
const std::string kMid = "bore-1,mid,thrust,32 acw,div,first,1,4,,,";
const std::string kMidCorrected = "bore-1,mid,thrust,23 acw,div,first,1,4,,,";

std::vector<std::string> texts_of_mid(const Job& job) {
  std::vector<std::string> out;
  for (const auto& each : job.readings) {
    if (each.value.part == "bore-1" && each.value.station == "mid" && each.value.direction == "thrust") out.push_back(each.value.quantity.text);
  }
  return out;
}

TEST(TakeIn, TwiceAddsNothing) {
  RecordOnBench bench;
  const FolderTexts texts = read_folder(kExample).value();
  const TakenIn first = bench.take(texts).value();
  EXPECT_EQ(first.job, kJob);
  EXPECT_EQ(first.there, 0);
  const TakenIn second = bench.take(texts).value();
  EXPECT_EQ(second.fresh, 0);
  EXPECT_EQ(second.there, first.fresh);
  EXPECT_EQ(static_cast<std::int64_t>(bench.store.events(kJob, 0).size()), first.fresh);
}

TEST(TakeIn, NewLinesGoOnAfterTheOld) {
  RecordOnBench bench;
  FolderTexts texts = read_folder(kExample).value();
  const TakenIn first = bench.take(texts).value();
  texts.readings_csv += "bore-1,mid,thrust,33 acw,div,first,1,40,2,,\n";
  const TakenIn second = bench.take(texts).value();
  EXPECT_EQ(second.fresh, 1);
  EXPECT_EQ(bench.recorded(kJob).events.back().device_sequence, first.fresh + 1);
}

TEST(TakeIn, AChangedLineNeedsAReason) {
  RecordOnBench bench;
  const FolderTexts texts = read_folder(kExample).value();
  ASSERT_TRUE(bench.take(texts).ok());
  const std::size_t before = bench.store.events(kJob, 0).size();
  const auto refusal = bench.take(with_line(texts, kMid, kMidCorrected));
  ASSERT_FALSE(refusal.ok());
  EXPECT_EQ(refusal.problems().front().code, "record.folder_changed");
  EXPECT_EQ(refusal.problems().front().arguments[2], verbatim("named", "bore-1, mid, thrust: 32 acw -> 23 acw"));
  EXPECT_EQ(bench.store.events(kJob, 0).size(), before) << "nothing was overwritten, nothing taken in";
}

TEST(TakeIn, ACorrectedLineStandsAndTheOldOneStaysInTheLog) {
  RecordOnBench bench;
  const FolderTexts texts = read_folder(kExample).value();
  ASSERT_TRUE(bench.take(texts).ok());
  const TakenIn corrected = bench.take(with_line(texts, kMid, kMidCorrected), "digits swapped").value();
  EXPECT_EQ(corrected.fresh, 1);
  EXPECT_EQ(corrected.withdrawn, 1);
  const RecordedJob now = bench.recorded(kJob);
  EXPECT_EQ(texts_of_mid(now.job), std::vector<std::string>{"23 acw"});
  ASSERT_EQ(now.job.superseded_readings.size(), 1U);
  EXPECT_EQ(now.job.superseded_readings[0].value.quantity.text, "32 acw");
  EXPECT_EQ(now.job.withdrawn.at(0).value.why, "digits swapped");
  EXPECT_EQ(bench.take(with_line(texts, kMid, kMidCorrected)).value().fresh, 0) << "now the folder says what the record says";
}

TEST(TakeIn, ALineThatComesBackCountsAgain) {
  RecordOnBench bench;
  const FolderTexts texts = read_folder(kExample).value();
  ASSERT_TRUE(bench.take(texts).ok());
  ASSERT_TRUE(bench.take(with_line(texts, kMid, kMidCorrected), "digits swapped").ok());
  ASSERT_TRUE(bench.take(texts, "they were right").ok());
  EXPECT_EQ(texts_of_mid(bench.recorded(kJob).job), std::vector<std::string>{"32 acw"});
  ASSERT_TRUE(bench.take(with_line(texts, kMid, kMidCorrected), "no, swapped").ok());
  EXPECT_EQ(texts_of_mid(bench.recorded(kJob).job), std::vector<std::string>{"23 acw"});
}

// The first event of the folder was moved away while its device was still asked for.
TEST(TakeIn, ALineComesBackAlsoWhereTheJobItselfIsChanged) {
  RecordOnBench bench;
  const FolderTexts texts = read_folder(kExample).value();
  ASSERT_TRUE(bench.take(texts).ok());
  ASSERT_TRUE(bench.take(with_line(texts, kMid, kMidCorrected), "digits swapped").ok());
  FolderTexts back = texts;
  const std::string name = "name = \"";
  back.job_toml.insert(back.job_toml.find(name) + name.size(), "Old ");
  const TakenIn taken = bench.take(back, "they were right, and the name").value();
  EXPECT_EQ(taken.aside, 0);
  const RecordedJob now = bench.recorded(kJob);
  EXPECT_EQ(texts_of_mid(now.job), std::vector<std::string>{"32 acw"});
  for (const EventEnvelope& each : now.events) EXPECT_EQ(each.device, "folder");
}

TEST(TakeIn, APartEnteredAnewKeepsItsPlaceAndItsReadings) {
  RecordOnBench bench;
  FolderTexts texts = read_folder(kExample).value();
  ASSERT_TRUE(bench.take(texts).ok());
  const RecordedJob before = bench.recorded(kJob);
  const std::size_t at = texts.job_toml.find("condition = \"worn\"");
  texts.job_toml.replace(at, 18, "condition = \"sleeved\"");
  ASSERT_TRUE(bench.take(texts, "it has a sleeve").ok());
  const RecordedJob now = bench.recorded(kJob);
  ASSERT_EQ(now.job.parts.size(), before.job.parts.size());
  EXPECT_EQ(now.job.parts[0].value.id, before.job.parts[0].value.id);
  EXPECT_EQ(now.job.parts[0].value.condition, Condition::sleeved);
  EXPECT_EQ(now.job.readings.size(), before.job.readings.size());
}

TEST(TakeIn, WhatWasTakenBackElsewhereStaysSo) {
  RecordOnBench bench;
  const FolderTexts texts = read_folder(kExample).value();
  ASSERT_TRUE(bench.take(texts).ok());
  const RecordedJob recorded = bench.recorded(kJob);
  ASSERT_TRUE(withdraw(bench.store, recorded, {recorded.job.readings.back().event, "wrong bore"}, bench.doing).ok());
  EXPECT_EQ(bench.take(texts).value().aside, 1) << "and that is said";
  EXPECT_EQ(bench.recorded(kJob).job.readings.size(), recorded.job.readings.size() - 1);
}

TEST(TakeIn, AReadingPutRightInTheRecordAndInTheFolderIsNotTakenTwice) {
  RecordOnBench bench;
  const FolderTexts texts = read_folder(kExample).value();
  ASSERT_TRUE(bench.take(texts).ok());
  const RecordedJob recorded = bench.recorded(kJob);
  const auto mid = std::find_if(recorded.job.readings.begin(), recorded.job.readings.end(),
                                [](const auto& each) { return each.value.part == "bore-1" && each.value.quantity.text == "32 acw"; });
  ASSERT_TRUE(correct_reading(bench.store, recorded, {mid->event, "digits swapped"}, "23 acw", bench.doing).ok());
  const TakenIn as_it_was = bench.take(texts).value();
  EXPECT_EQ(as_it_was.fresh, 0) << "the folder as it was is no fault";
  EXPECT_EQ(as_it_was.aside, 1);
  EXPECT_EQ(refused(bench.take(with_line(texts, kMid, kMidCorrected), "digits swapped")), "record.corrected_elsewhere");
  EXPECT_EQ(texts_of_mid(bench.recorded(kJob).job), std::vector<std::string>{"23 acw"});
}

TEST(TakeIn, AnotherEngineUnderTheSameIdIsNoCorrection) {
  RecordOnBench bench;
  ASSERT_TRUE(bench.take(read_folder(kExample).value()).ok());
  FolderTexts other = read_folder(std::string(FETTLE_SOURCE_DIR) + "/tests/cli/jobs/grebe-12").value();
  const std::string old = "id = \"grebe-12\"";
  other.job_toml.replace(other.job_toml.find(old), old.size(), "id = \"tern-curlew-3\"");
  EXPECT_EQ(refused(bench.take(other)), "record.another_job");
  EXPECT_EQ(refused(bench.take(other, "it is another one")), "record.another_job") << "no reason makes it one";
}

TEST(TakeIn, WithoutAnOrderACorrectionIsNotDoubledEither) {
  RecordOnBench bench;
  FolderTexts texts = read_folder(kExample).value();
  texts.readings_csv = "part,station,direction,reading,unit,setting\nbore-1,mid,thrust,32 acw,div,first\nbore-1,mid,pin,29 acw,div,first\n";
  ASSERT_TRUE(bench.take(texts).ok());
  const RecordedJob recorded = bench.recorded(kJob);
  const auto mid = std::find_if(recorded.job.readings.begin(), recorded.job.readings.end(), [](const auto& each) { return each.value.direction == "thrust"; });
  ASSERT_TRUE(correct_reading(bench.store, recorded, {mid->event, "digits swapped"}, "23 acw", bench.doing).ok());
  const std::string old = "32 acw";
  texts.readings_csv.replace(texts.readings_csv.find(old), old.size(), "23 acw");
  EXPECT_EQ(refused(bench.take(texts, "digits swapped")), "record.corrected_elsewhere");
}

TEST(TakeIn, AFolderWithAFaultLeavesTheRecordAsItWas) {
  RecordOnBench bench;
  const FolderTexts texts = read_folder(kExample).value();
  EXPECT_FALSE(bench.take(with_line(texts, kMid, "bore-1,mid,thrust,32 xyz,div,first,1,4,,,")).ok());
  EXPECT_TRUE(bench.store.jobs().empty());
}

}  // namespace
}  // namespace fettle
