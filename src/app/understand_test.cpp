#include "app/understand.h"

#include <gtest/gtest.h>

#include "app/acts_on_bench.h"
#include "catalogue/catalogue.h"
#include "simulate/engine.h"
#include "simulate/families_file.h"

namespace fettle {
namespace {

std::string asked(const Understood& understood) { return understood.question ? understood.question->code : codes_of(understood.problems); }
std::string asks(const Understood& understood) { return understood.question ? english(understood.question->sentence) : "-"; }

TEST(Understand, SaysTheSizeInWords) {
  ActsOnBench bench;
  bench.ready();
  const Understood larger = understand(bench.now(), bench.bore("bore-2", "top", "thrust", "71 acw"));
  EXPECT_EQ(english(larger.understood), "0.071 larger → 78.069") << "3.0708 in is 77.99832; 71 less a third, the mean of the zeros";
  EXPECT_EQ(english(larger.said), "top · thrust 78.069");
  EXPECT_EQ(english(larger.spoken), "anticlockwise, 71");
  EXPECT_EQ(sentence(*larger.understood, Language::german), "0,071 größer → 78,069");
  EXPECT_EQ(english(understand(bench.now(), bench.bore("bore-2", "top", "thrust", "0")).understood), "as the master → 77.998");
  EXPECT_EQ(english(understand(bench.now(), bench.bore("bore-2", "top", "thrust", "4½ cw")).understood), "0.0045 smaller → 77.9935");
  EXPECT_EQ(english(understand(bench.now(), bench.main("main-1", "front", "vertical", "51.981")).understood), "51.983");
}

TEST(Understand, WhatCannotStandIsRefusedWithEveryReason) {
  ActsOnBench bench;
  bench.ready();
  EXPECT_EQ(asked(understand(bench.now(), bench.bore("bore-9", "top", "thrust", "71 acw"))), "gauging.unknown_part");
  EXPECT_EQ(asked(understand(bench.now(), bench.bore("bore-1", "ridge", "thrust", "71 acw"))), "gauging.unknown_station");
  EXPECT_NE(asked(understand(bench.now(), bench.bore("bore-1", "top", "thrust", "71"))), "") << "no needle side";
  EXPECT_EQ(asked(understand(bench.now(), bench.bore("main-1", "front", "vertical", "71 acw"))), "gauging.wrong_feature");
  EXPECT_EQ(asked(understand(bench.now(), bench.main("main-1", "front", "vertical", "81.0"))), "gauging.reading_outside_range");
  ReadingAct correction = bench.bore("bore-1", "top", "thrust", "71 acw");
  correction.supersedes = std::string(32, '0');
  EXPECT_EQ(asked(understand(bench.now(), correction)), "record.no_reading record.no_reason");
  ReadingAct elsewhere = bench.bore("bore-1", "top", "thrust", "71 acw");
  elsewhere.setting = "bg-9";
  EXPECT_EQ(asked(understand(bench.now(), elsewhere)), "gauging.unknown_setting");
}

/// Script 1 (a): bore 2 middle pin is typed 28 on the wrong side.
TEST(Understand, ANeedleOnTheWrongSideIsAskedAndTheSecondReadingSettlesIt) {
  for (const bool with_limits : {true, false}) {
    ActsOnBench bench;
    bench.ready(with_limits);
    bench.read_bore("bore-2", {71, 31, 18, 12}, {60, 28, 16, 12}, "mid/pin");
    const ReadingAct wrong = bench.bore("bore-2", "mid", "pin", "28 cw");
    const Understood first = understand(bench.now(), wrong);
    EXPECT_EQ(asked(first), "needle-side") << with_limits;
    if (with_limits) {
      EXPECT_EQ(asks(first), "28 ↻ would be smaller than new. Needle on the other side? Read it again.");
    }
    const ActDone kept = bench.send(ActBody(wrong));
    ASSERT_TRUE(kept.kept);
    ASSERT_TRUE(kept.question);
    EXPECT_EQ(kept.question->code, "needle-side");
    const Understood second = understand(bench.now(), bench.bore("bore-2", "mid", "pin", "28 acw"));
    EXPECT_EQ(asked(second), "");
    ASSERT_TRUE(second.offer);
    EXPECT_EQ(english(second.offer->sentence), "Keep 28 ↺, set 28 ↻ aside as needle side?");
    EXPECT_EQ(english(second.offer->why), "needle side");
    EXPECT_EQ(second.offer->event, kept.id);
    const Understood same = understand(bench.now(), bench.bore("bore-2", "mid", "pin", "28 cw"));
    EXPECT_EQ(asked(same), "") << "asked once; both stand";
    EXPECT_FALSE(same.offer);
  }
}

/// Script 1: M4 front V is first typed 51.476.
TEST(Understand, ATurnOfTheThimbleIsAsked) {
  ActsOnBench bench;
  bench.ready();
  const Understood first = understand(bench.now(), bench.main("main-4", "front", "vertical", "51.476"));
  EXPECT_EQ(asked(first), "thimble-turn");
  EXPECT_EQ(asks(first), "51.476 would be far past its wear limit. One turn, 0.5 mm? Read it again.");
  EXPECT_EQ(asked(understand(bench.now(), bench.main("main-4", "front", "vertical", "51.976"))), "");
}

TEST(Understand, ATurnOfTheThimbleIsSeenWithoutLimitsOnceLikePartsWereRead) {
  ActsOnBench bench;
  bench.ready(false);
  EXPECT_EQ(asked(understand(bench.now(), bench.main("main-4", "front", "vertical", "51.476"))), "") << "nothing is known yet";
  EXPECT_TRUE(bench.send(ActBody(bench.main("main-1", "front", "vertical", "51.983"))).kept);
  EXPECT_EQ(asked(understand(bench.now(), bench.main("main-4", "front", "vertical", "51.476"))), "thimble-turn") << "no journal wears half a millimetre beyond another";
  EXPECT_EQ(asked(understand(bench.now(), bench.main("main-4", "front", "vertical", "51.971"))), "");
}

/// Script 2: a contact that drops into a port.
TEST(Understand, TheEdgeOfAPortIsAsked) {
  ActsOnBench bench;
  bench.ready();
  bench.read_bore("bore-1", {55, 40, 10, 5}, {40, 35, 10, 5}, "mid/thrust");
  const Understood port = understand(bench.now(), bench.bore("bore-1", "mid", "thrust", "455 acw"));
  EXPECT_EQ(asked(port), "port-edge");
  EXPECT_EQ(asks(port), "455 ↺ would be far larger than what was read beside it. The edge of a port? Read it again.");
}

/// One bore worn a third of a millimetre among sound ones.
TEST(Understand, ADeeplyWornBoreIsNotAskedAbout) {
  ActsOnBench bench;
  bench.ready();
  for (const char* part : {"bore-1", "bore-2", "bore-3"}) bench.read_bore(part, {71, 31, 18, 12}, {60, 28, 16, 12});
  const std::vector<std::vector<std::string>> walk = {{"top", "thrust", "340"}, {"mid", "thrust", "160"},   {"bottom", "thrust", "60"}, {"foot", "thrust", "14"},
                                                      {"foot", "pin", "12"},    {"bottom", "pin", "50"}, {"mid", "pin", "130"},     {"top", "pin", "270"}};
  for (const auto& each : walk) {
    const ActDone done = bench.send(ActBody(bench.bore("bore-4", each[0], each[1], each[2] + " acw")));
    ASSERT_TRUE(done.kept);
    EXPECT_FALSE(done.question) << each[0] << " " << each[1] << ": " << english(done.question->sentence);
  }
}

TEST(Understand, AFlaggedReadingIsNotWeighed) {
  ActsOnBench bench;
  bench.ready();
  bench.read_bore("bore-2", {71, 31, 18, 12}, {60, 28, 16, 12}, "mid/pin");
  ReadingAct carbon = bench.bore("bore-2", "mid", "pin", "28 cw");
  carbon.flag = ReadingFlag::deposit;
  EXPECT_EQ(asked(understand(bench.now(), carbon)), "");
}

struct Rates {
  int honest = 0;
  int falsely = 0;
  int planted = 0;
  int caught = 0;
};

/// The mistake of a hand in what the needle showed: the other side, or a turn of the dial not counted.
std::string mistaken(const Reading& reading, bool side, std::int64_t turn) {
  const Ratio divisions = reading.quantity.quantity.value;
  const Ratio wrong = side ? -divisions : divisions + Ratio(divisions.sign() < 0 ? turn : -turn);
  return absolute(wrong).decimal(wrong.is_whole() ? 0 : 1) + (wrong.sign() == 0 ? "" : wrong.sign() < 0 ? " acw" : " cw");
}

ReadingAct act_of(const Reading& reading, const std::string& text, std::int64_t order) {
  return {reading.part, reading.station, reading.direction, text, UnitId::division, reading.setting, reading.round, order, {}, {}, {}, {}, {}, {}, {}};
}

/// Reads an engine place by place; before each honest reading, a mistake of the same place is tried and not kept.
void read_along(const SimulatedEngine& engine, Rates& side, Rates& turn) {
  Job job = engine.job;
  const auto gauge = know_gauge(job.gauges.front().value, catalogue().gauge_presets, {}).value();
  const Ratio division = gauge.division->ratio() / Ratio(Length::kCountsPerMillimetre);
  job.readings.clear();
  std::int64_t order = 0;
  for (const Kept<Reading>& each : engine.job.readings) {
    ++order;
    const auto ask = [&](const std::string& text) { return understand(job, act_of(each.value, text, order)); };
    const Understood honest = ask(each.value.quantity.text);
    ASSERT_TRUE(honest.problems.empty()) << codes_of(honest.problems);
    ++side.honest;
    if (honest.question) ++side.falsely;
    // Less than 24 µm between the two sides is lost in what a new part may be.
    const Ratio worth_seeing = Ratio::of(12, 1000);
    if (absolute(each.value.quantity.quantity.value * division) >= worth_seeing) {
      ++side.planted;
      if (ask(mistaken(each.value, true, 0)).question) ++side.caught;
    }
    if (gauge.turn) {
      ++turn.planted;
      const Ratio divisions = gauge.turn->ratio() / gauge.division->ratio();
      if (ask(mistaken(each.value, false, static_cast<std::int64_t>(divisions.to_double()))).question) ++turn.caught;
    }
    job.readings.push_back(each);
  }
}

TEST(Understand, AsksSeldomInVainAndSeesTheUsualMistakesInTrials) {
  Rates side;
  Rates turn;
  constexpr std::uint64_t kSeed = 20260731;
  constexpr std::uint64_t kEngines = 1;
  for (const EngineFamily& family : built_in_families()) {
    Rates own_side;
    Rates own_turn;
    for (const char* name : {"good", "mid", "coarse"}) {
      const Hand* hand = find_hand(built_in_hands(), name);
      ASSERT_NE(hand, nullptr);
      for (std::uint64_t number = 0; number < kEngines; ++number) read_along(simulate_engine(family, *hand, kSeed, number), own_side, own_turn);
    }
    RecordProperty(family.id + "_false_of_" + std::to_string(own_side.honest), own_side.falsely);
    std::cout << family.id << ": " << own_side.falsely << " of " << own_side.honest << " asked in vain; sides seen " << own_side.caught << " of "
              << own_side.planted << ", turns " << own_turn.caught << " of " << own_turn.planted << "\n";
    side.honest += own_side.honest;
    side.falsely += own_side.falsely;
    side.planted += own_side.planted;
    side.caught += own_side.caught;
    turn.planted += own_turn.planted;
    turn.caught += own_turn.caught;
  }
  std::cout << "all: " << side.falsely << " of " << side.honest << " asked in vain; sides seen " << side.caught << " of " << side.planted << ", turns "
            << turn.caught << " of " << turn.planted << "\n";
  EXPECT_GT(side.honest, 900);
  EXPECT_LE(200 * side.falsely, side.honest) << side.falsely;
  EXPECT_GT(100 * side.caught, 75 * side.planted);
  EXPECT_GT(100 * turn.caught, 95 * turn.planted);
}

}  // namespace
}  // namespace fettle
