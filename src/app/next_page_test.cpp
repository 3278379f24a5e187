#include "app/next_page.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "app/open_folder.h"
#include "simulate/engine.h"
#include "simulate/families_file.h"

namespace fettle {
namespace {

Hand hand_with(double setting_um, double repeat_um, double master_um) {
  Hand out = *find_hand(built_in_hands(), "mid");
  out.setting_sd_um = setting_um;
  out.repeat_sd_um = repeat_um;
  out.master_sd_um = master_um;
  out.division = Length::counts(Length::kCountsPerMillimetre / 1000);
  return out;
}

JudgedJob judged_of(const SimulatedEngine& engine) {
  Accuracy accuracy = usual_accuracy();
  accuracy.draws = 0;
  accuracy.best_draws = 0;
  Result<JudgedJob> judged = judge_job(engine.job, {{}, accuracy, JudgeDetail::verdicts});
  EXPECT_TRUE(judged.ok());
  return std::move(judged).value();
}

/// Advice for open parts of many engines whose size is near its limit.
std::vector<AdviceFor> advice_for_open_parts(const Hand& hand, std::size_t engines) {
  const EngineFamily& family = *find_family(built_in_families(), "size-binding");
  std::vector<AdviceFor> out;
  for (std::size_t number = 0; number < engines; ++number) {
    const Advice advice = next_reading(judged_of(simulate_engine(family, hand, 5, number)));
    out.insert(out.end(), advice.parts.begin(), advice.parts.end());
  }
  EXPECT_GT(out.size(), engines / 2);
  return out;
}

const NextAct* find_act(const std::vector<NextAct>& acts, ActSort sort) {
  const auto found = std::find_if(acts.begin(), acts.end(), [&](const NextAct& each) { return each.sort == sort; });
  return found == acts.end() ? nullptr : &*found;
}

TEST(NextPage, AHugeSettingErrorIsNotRepeatedAway) {
  std::size_t afresh = 0;
  const auto all = advice_for_open_parts(hand_with(25.0, 2.0, 0.0), 30);
  std::size_t by_setting = 0;
  for (const AdviceFor& each : all) {
    if (each.doubt.largest() != DoubtOf::setting) continue;  // its ovality is near a limit as well
    ++by_setting;
    EXPECT_EQ(find_act(each.acts, ActSort::read_again), nullptr) << each.part;
    ASSERT_NE(find_act(each.useless, ActSort::read_again), nullptr) << each.part;
    if (each.acts.empty()) continue;  // one setting more does not settle everything
    EXPECT_TRUE(each.acts.front().sort == ActSort::set_afresh || each.acts.front().sort == ActSort::set_afresh_twice) << each.part;
    ++afresh;
    EXPECT_NE(find_act(each.useless, ActSort::read_again)->useless, WhyUseless::master_in_doubt) << each.part;
  }
  EXPECT_GT(by_setting, all.size() / 2);
  EXPECT_GT(afresh, by_setting / 2);
}

TEST(NextPage, AHugeErrorOfTheMasterAsksForAnotherMaster) {
  std::size_t master = 0;
  const auto all = advice_for_open_parts(hand_with(2.0, 2.0, 25.0), 30);
  for (const AdviceFor& each : all) {
    EXPECT_EQ(find_act(each.acts, ActSort::read_again), nullptr) << each.part;
    EXPECT_EQ(find_act(each.acts, ActSort::set_afresh), nullptr) << each.part;
    if (!each.acts.empty() && each.acts.front().sort == ActSort::other_master) ++master;
    EXPECT_EQ(each.doubt.largest(), DoubtOf::master) << each.part;
  }
  EXPECT_GT(master, all.size() * 3 / 4);
}

TEST(NextPage, CoarseReadingsUnderAGoodSettingAreRepeated) {
  std::size_t again = 0;
  const auto all = advice_for_open_parts(hand_with(0.5, 9.0, 0.0), 30);
  for (const AdviceFor& each : all) {
    if (!each.acts.empty() && each.acts.front().sort == ActSort::read_again) ++again;
  }
  EXPECT_GT(again, all.size() * 3 / 4);
}

TEST(NextPage, NothingOpenAsksForNothing) {
  const EngineFamily& family = *find_family(built_in_families(), "new");
  const JudgedJob judged = judged_of(simulate_engine(family, hand_with(3.0, 2.0, 0.0), 5, 1));
  const Advice advice = next_reading(judged);
  EXPECT_TRUE(advice.parts.empty());
  EXPECT_TRUE(advice.groups.empty());
  EXPECT_EQ(next_page(judged, advice, 0, Language::english).head, word_for("next.head_none", Language::english));
}

TEST(NextPage, WhatWasNotReadIsReadFirst) {
  const Job job = open_folder(std::string(FETTLE_SOURCE_DIR) + "/tests/cli/jobs/mid-unread").value();
  const JudgedJob judged = judge_job(job, {{}, usual_accuracy()}).value();
  const Advice advice = next_reading(judged);
  ASSERT_EQ(advice.parts.size(), 2U);
  for (const AdviceFor& each : advice.parts) {
    ASSERT_EQ(each.acts.size(), 1U);
    EXPECT_EQ(each.acts.front().sort, ActSort::read_unread);
    ASSERT_EQ(each.acts.front().places.size(), 2U);  // middle, both directions
    for (const NextPlace& place : each.acts.front().places) EXPECT_FALSE(place.read_before);
  }
}

TEST(NextPage, WhatIsReckonedByAFormulaIsSaidToBeLeft) {
  const Job job = open_folder(std::string(FETTLE_SOURCE_DIR) + "/tests/cli/jobs/every-kind").value();
  const JudgedJob judged = judge_job(job, {{}, usual_accuracy()}).value();
  const Advice advice = next_reading(judged);
  EXPECT_EQ(advice.not_worked_out, std::vector<std::string>{"leak"});
  EXPECT_EQ(next_page(judged, advice, 0, Language::english).notes.size(), 1U);
}

// What is foretold comes true: the act is done by the same hand, and the part judged again.
TEST(NextPage, SettlesAsOftenAsItSays) {
  const EngineFamily& family = *find_family(built_in_families(), "size-binding");
  const Hand hand = hand_with(5.0, 4.0, 0.0);
  double foretold = 0.0;
  double settled = 0.0;
  std::size_t acts = 0;
  for (std::size_t number = 0; number < 120; ++number) {
    SimulatedEngine engine = simulate_engine(family, hand, 9, number);
    const JudgedJob judged = judged_of(engine);
    const Advice advice = next_reading(judged);
    if (advice.parts.empty()) continue;
    const NextAct* act = find_act(advice.parts.front().acts, ActSort::set_afresh);
    if (act == nullptr) continue;
    std::vector<PlaceAgain> places;
    for (const NextPlace& each : act->places) {
      std::size_t part = 0;
      while (part_id(family, part) != each.part) ++part;
      places.push_back({part, each.cell, each.times});
    }
    add_work(engine, read_again(hand, family, engine.truth, 9, number, 1, places));
    const JudgedJob after = judged_of(engine);
    const auto state = std::find_if(after.judgement.states.begin(), after.judgement.states.end(), [&](const PartState& each) { return each.part == advice.parts.front().part; });
    foretold += act->settles;
    settled += state->word == StateWord::serviceable || state->word == StateWord::as_new || state->word == StateWord::beyond ? 1.0 : 0.0;
    ++acts;
  }
  ASSERT_GT(acts, 40U);
  const double n = static_cast<double>(acts);
  EXPECT_NEAR(settled / n, foretold / n, 0.15) << acts;  // 40 acts: a share of one half is known to 0.08
}

}  // namespace
}  // namespace fettle
