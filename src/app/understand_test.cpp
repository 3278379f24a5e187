#include "app/understand.h"

#include "app/acts_on_bench.h"
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
  EXPECT_EQ(english(larger.understood), "0.071 larger → 78.070") << "78.069633: the mean zero stands a third of a division anticlockwise";
  EXPECT_EQ(english(larger.said), "top · thrust 78.070");
  EXPECT_EQ(english(larger.spoken), "anticlockwise, 71");
  EXPECT_EQ(sentence(*larger.understood, Language::german), "0,071 größer → 78,070");
  EXPECT_EQ(english(understand(bench.now(), bench.bore("bore-2", "top", "thrust", "0")).understood), "as the master → 77.999");
  EXPECT_EQ(english(understand(bench.now(), bench.bore("bore-2", "top", "thrust", "4½ cw")).understood), "0.0045 smaller → 77.9941");
  EXPECT_EQ(english(understand(bench.now(), bench.main("main-1", "front", "vertical", "51.981")).understood), "→ 51.983");
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
    if (with_limits) EXPECT_EQ(asks(first), "28 ↻ would be smaller than new. Needle on the other side? Read it again.");
    const ActDone kept = bench.send(ActBody(wrong));
    ASSERT_TRUE(kept.kept);
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
  EXPECT_EQ(asked(understand(bench.now(), bench.main("main-4", "front", "vertical", "51.476"))), "") << "one reading is no spread";
  EXPECT_TRUE(bench.send(ActBody(bench.main("main-2", "front", "vertical", "51.977"))).kept);
  EXPECT_EQ(asked(understand(bench.now(), bench.main("main-4", "front", "vertical", "51.476"))), "thimble-turn");
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

/// The mistake of a hand in what the needle showed: the other side, or a turn of 200 divisions not counted.
std::string mistaken(const Reading& reading, bool side) {
  const Ratio divisions = reading.quantity.quantity.value;
  const Ratio wrong = side ? -divisions : divisions + Ratio(divisions.sign() < 0 ? 200 : -200);
  return absolute(wrong).decimal(wrong.is_whole() ? 0 : 1) + (wrong.sign() == 0 ? "" : wrong.sign() < 0 ? " acw" : " cw");
}

ReadingAct act_of(const Reading& reading, const std::string& text, std::int64_t order) {
  return {reading.part, reading.station, reading.direction, text, UnitId::division, reading.setting, reading.round, order, {}, {}, {}, {}, {}, {}, {}};
}

/// Reads an engine place by place; before each honest reading, a mistake of the same place is tried and not kept.
void read_along(const SimulatedEngine& engine, Rates& side, Rates& turn) {
  Job job = engine.job;
  job.readings.clear();
  std::int64_t order = 0;
  for (const Kept<Reading>& each : engine.job.readings) {
    ++order;
    const auto ask = [&](const std::string& text) { return understand(job, act_of(each.value, text, order)); };
    const Understood honest = ask(each.value.quantity.text);
    ASSERT_TRUE(honest.problems.empty()) << codes_of(honest.problems);
    ++side.honest;
    if (honest.question) ++side.falsely;
    // What is no further off than a few divisions does no harm, and nobody could see it.
    constexpr int kWorthSeeing = 12;
    if (absolute(each.value.quantity.quantity.value) >= Ratio(kWorthSeeing)) {
      ++side.planted;
      if (ask(mistaken(each.value, true)).question) ++side.caught;
    }
    ++turn.planted;
    if (ask(mistaken(each.value, false)).question) ++turn.caught;
    job.readings.push_back(each);
  }
}

TEST(Understand, AsksSeldomInVainAndSeesTheUsualMistakesInTrials) {
  Rates side;
  Rates turn;
  constexpr std::uint64_t kSeed = 20260731;
  constexpr std::uint64_t kEngines = 12;
  for (const EngineFamily& family : built_in_families()) {
    const Hand* hand = find_hand(built_in_hands(), "mid");
    ASSERT_NE(hand, nullptr);
    Rates own_side;
    Rates own_turn;
    for (std::uint64_t number = 0; number < kEngines; ++number) read_along(simulate_engine(family, *hand, kSeed, number), own_side, own_turn);
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
  EXPECT_GT(side.honest, 3000);
  EXPECT_LE(200 * side.falsely, side.honest) << side.falsely;
  EXPECT_GT(10 * side.caught, 5 * side.planted);
  EXPECT_GT(10 * turn.caught, 5 * turn.planted);
}

}  // namespace
}  // namespace fettle
