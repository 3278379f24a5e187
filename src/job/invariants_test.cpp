#include "job/invariants.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "text/sentence.h"

namespace fettle {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

TypedQuantity typed(const std::string& text) { return read_quantity(text, {{}, {}, DecimalMark::point, {}, false, {}}, {}).value(); }

/// One bore read under one setting.
Job sound_job() {
  Job job{};
  job.opened = Kept<JobOpened>{"e0", {"Tern", {}, {}, UnitId::millimetre, ""}};
  job.parts.push_back({"e1", {"bore-1", "cylinder-bore", "1", {}, {StepKind::standard, {}, ""}, Condition::worn}});
  Gauge gauge{};
  gauge.id = "mic";
  job.gauges.push_back({"e2", gauge});
  job.settings.push_back({"e3", {"s", "mic", {}, {}, {}, {}, {}, {}, {}, {}}});
  job.readings.push_back({"e4", {"bore-1", "top", "thrust", typed("84 mm"), "s", "", {}, {}, {}, ReadingFlag::none, "", {}}});
  return job;
}

std::vector<std::string> rules(const Job& job) {
  std::vector<std::string> out;
  for (const BrokenRule& each : broken_rules(job)) out.emplace_back(each.rule);
  return out;
}

TEST(Invariants, ASoundJobBreaksNone) { EXPECT_THAT(broken_rules(sound_job()), IsEmpty()); }

TEST(Invariants, EachRuleIsFoundBroken) {
  Job job = sound_job();
  job.readings[0].value.part = "bore-9";
  EXPECT_THAT(broken_rules(job), ElementsAre(BrokenRule{"reading-has-part", "bore-9 <- e4"}));
  job = sound_job();
  job.readings[0].value.setting = "t";
  EXPECT_THAT(rules(job), ElementsAre("reading-has-setting"));
  job = sound_job();
  job.gauges.clear();
  EXPECT_THAT(rules(job), ElementsAre("setting-has-gauge"));
  job = sound_job();
  job.settings[0].value.master = "ring";
  EXPECT_THAT(rules(job), ElementsAre("setting-has-master"));
  job = sound_job();
  job.findings.push_back({"e5", {"bore-9", "score", FindingWeight::note, "", {}}});
  EXPECT_THAT(rules(job), ElementsAre("finding-has-part"));
  job = sound_job();
  job.found_out.push_back({"e5", {"ring", {}, {}, {}, {}, "dropped"}});
  EXPECT_THAT(rules(job), ElementsAre("found-out-has-gauge"));
  job = sound_job();
  job.zero_looks.push_back({"e5", {"t", "1", 0, typed("84 mm"), false}});
  EXPECT_THAT(broken_rules(job), ElementsAre(BrokenRule{"zero-look-has-setting", "t <- e5"}));
  job = sound_job();
  job.temperatures.push_back({"e5", {"t", {}, {}}});
  EXPECT_THAT(rules(job), ElementsAre("temperatures-have-setting"));
  job = sound_job();
  job.taken.push_back({"e5", {"bore-9", {}, TakenWord::beyond, "", VerdictWord::beyond}});
  job.taken.push_back({"e6", {"bore-1", "no-limit", TakenWord::beyond, "", VerdictWord::beyond}});
  EXPECT_THAT(rules(job), ElementsAre("taken-has-part", "taken-has-limit"));
  job = sound_job();
  job.files.push_back({"e5", {std::string(64, 'a'), "image/png", "x.png", "bore-9", ""}});
  job.files.push_back({"e6", {std::string(64, 'a'), "image/png", "y.png", {}, ""}});
  EXPECT_THAT(broken_rules(job), ElementsAre(BrokenRule{"file-has-part", "bore-9 <- x.png"}));
  job = sound_job();
  job.parts[0].value.members = std::vector<Member>{{"bore", "bore-9"}};
  EXPECT_THAT(rules(job), ElementsAre("member-is-part"));
  job = sound_job();
  job.readings.push_back(job.readings[0]);
  job.readings[0].value.supersedes = "e0";
  job.readings[1].value.supersedes = "e0";
  EXPECT_THAT(rules(job), ElementsAre("one-correction"));
}

TEST(Invariants, WhatIsNotThereIsToldOnceHoweverManyNameIt) {
  Job job = sound_job();
  for (int i = 0; i < 5; ++i) job.readings.push_back({"e" + std::to_string(10 + i), job.readings[0].value});
  job.parts.clear();
  EXPECT_THAT(broken_rules(job), ElementsAre(BrokenRule{"reading-has-part", "bore-1 <- e4, e10, e11, + 3"}));
}

TEST(Invariants, EachRuleHasItsSentence) {
  for (const std::string_view rule : rules_of_record()) {
    EXPECT_TRUE(has_key("record_rule." + std::string(rule), Language::english)) << rule;
    EXPECT_TRUE(has_key("record_rule." + std::string(rule), Language::german)) << rule;
  }
}

}  // namespace
}  // namespace fettle
