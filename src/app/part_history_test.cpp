#include "app/part_history.h"

#include <gtest/gtest.h>

#include "app/correct.h"
#include "app/index_job.h"
#include "app/record_on_bench.h"

namespace fettle {
namespace {

FolderTexts rebuild(const std::string& job, const std::string& serial, const std::string& when) {
  FolderTexts texts = read_folder(kExample).value();
  const auto put = [&](std::string& text, const std::string& old, const std::string& now) {
    const std::size_t at = text.find(old);
    FETTLE_ASSERT(at != std::string::npos, old);
    text.replace(at, old.size(), now);
  };
  put(texts.job_toml, "id = \"tern-curlew-3\"", "id = \"" + job + "\"");
  put(texts.job_toml, "[engine]\n", "[engine]\nserial = \"" + serial + "\"\n");
  put(texts.readings_csv, ",flag,note\n", ",flag,note,who,when\n");
  std::string out;
  std::size_t begin = 0;
  for (std::size_t end = texts.readings_csv.find('\n'); end != std::string::npos; end = texts.readings_csv.find('\n', begin)) {
    out += texts.readings_csv.substr(begin, end - begin) + (begin == 0 ? "\n" : ",M," + when + "\n");
    begin = end + 1;
  }
  texts.readings_csv = out;
  return texts;
}

void take_in_and_index(RecordOnBench& bench, const FolderTexts& texts) {
  const auto taken = bench.take(texts);
  ASSERT_TRUE(taken.ok()) << taken.problems().front().code;
  index_job(bench.store, bench.recorded(taken.value().job));
}

TEST(PartHistory, FollowsAPartFromRebuildToRebuild) {
  RecordOnBench bench;
  take_in_and_index(bench, rebuild("tern-2038", "K 4711", "2038-02-01"));
  take_in_and_index(bench, rebuild("tern-2031", "K 4711", "2031-05-04"));
  take_in_and_index(bench, rebuild("other-2035", "K 4712", "2035-01-01"));
  const auto history = part_history(bench.store, "tern-2038", "bore-2").value();
  ASSERT_EQ(history.size(), 2U);
  EXPECT_EQ(history[0].job, "tern-2031");
  EXPECT_EQ(history[0].day, "2031-05-04");
  EXPECT_EQ(history[1].job, "tern-2038");
  EXPECT_EQ(history[1].state, StateWord::beyond);
  EXPECT_EQ(history[0].verdicts.size(), 5U);
  EXPECT_EQ(part_history(bench.store, "other-2035", "bore-2").value().size(), 1U);
}

TEST(PartHistory, AnotherRebuildThatCannotBeReadKeepsNoneBack) {
  RecordOnBench bench;
  take_in_and_index(bench, rebuild("tern-2038", "K 4711", "2038-02-01"));
  take_in_and_index(bench, rebuild("tern-2031", "K 4711", "2031-05-04"));
  const std::string id = std::string(32, 'a');
  ASSERT_TRUE(bench.store.accept({{"tern-2031", id, R"({"id":")" + id + R"(","type":"guessed","version":1})"}}).ok());
  const auto history = part_history(bench.store, "tern-2038", "bore-2").value();
  ASSERT_EQ(history.size(), 2U);
  EXPECT_EQ(history[0].job, "tern-2031");
  EXPECT_EQ(history[0].problems.front().code, "wire.unknown_event_type");
  EXPECT_TRUE(history[1].problems.empty());
}

TEST(PartHistory, ShowsWhatNoLongerStandsAndWhy) {
  RecordOnBench bench;
  take_in_and_index(bench, rebuild("tern-2031", "K 4711", "2031-05-04"));
  const RecordedJob recorded = bench.recorded("tern-2031");
  const Kept<Reading> old = recorded.job.readings.at(3);
  ASSERT_TRUE(correct_reading(bench.store, recorded, {old.event, "digits swapped"}, "23 acw", bench.doing).ok());
  ASSERT_TRUE(withdraw(bench.store, bench.recorded("tern-2031"), {recorded.job.readings.at(4).event, "wrong bore"}, bench.doing).ok());
  const auto history = part_history(bench.store, "tern-2031", "bore-1").value();
  ASSERT_EQ(history.size(), 1U);
  std::vector<std::string> aside;
  for (const HistoryLine& each : history[0].lines) {
    if (!each.stands) aside.push_back(each.why);
  }
  EXPECT_EQ(aside, (std::vector<std::string>{"digits swapped", "wrong bore"}));
}

TEST(PartHistory, WhatIsNotThereIsSaid) {
  RecordOnBench bench;
  EXPECT_EQ(refused(part_history(bench.store, "nobody's", "bore-1")), "record.no_such_job");
  take_in_and_index(bench, read_folder(kExample).value());
  EXPECT_EQ(refused(part_history(bench.store, "tern-curlew-3", "bore-9")), "record.no_such_part");
}

}  // namespace
}  // namespace fettle
