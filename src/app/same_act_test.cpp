#include "app/same_act.h"

#include <gtest/gtest.h>

#include "app/acts_on_bench.h"

namespace fettle {
namespace {

/// One act of every sort, kept, and then sent again.
struct SentAgain {
  ActsOnBench bench;
  std::vector<Act> acts;

  SentAgain() {
    bench.ready();
    keep(bench.act(GaugeAct{"bg-b", "dial-bore-gauge-0-001-mm", "0.001 mm", "0.2 mm", NeedleSide::clockwise, {}, {}, {}}));
    keep(bench.act(SettingAct{"bg-2", "bg", "mic-in", "78.000 mm", "3.0709 in", std::vector<std::string>{"1 acw"}, "20 °C", "19.5 °C", {}, "bg-1"}));
    keep(bench.limit("bore-taper", "cylinder-bore", "tap-1", LimitRole::service, LimitSide::at_most, "0.050 mm"));
    ReadingAct reading = bench.bore("bore-1", "top", "thrust", "78 acw");
    reading.note = "oily";
    reading.setting = "bg-2";
    reading.temperature = "20 °C";
    keep(bench.act(reading));
    keep(bench.act(bench.main("main-1", "front", "vertical", "51.981")));
    keep(bench.act(ZeroAct{"bg-1", "1", 1, "1 acw", true}));
    keep(bench.act(TemperaturesAct{"bg-1", "20 °C", "20 °C"}));
    keep(bench.act(FindingAct{"bore-2", "score", FindingWeight::note, "top", "0.02 mm"}));
    keep(bench.act(TakeVerdictAct{"bore-1", "bore-service", TakenWord::within, "by hand"}));
    keep(bench.act(WithdrawAct{acts[7].head.id, "it was dirt"}));
  }
  void keep(const Act& act) {
    acts.push_back(act);
    ActsOnBench::need_kept(bench.send({act}));
  }
  /// What is said of an act that is sent again, by this program and by one that was started anew.
  [[nodiscard]] std::string again(const Act& act) {
    OpenJobs restarted(bench.store);
    const ActDone here = bench.send({act}).acts.at(0);
    const ActDone there = do_acts(restarted, bench.job, {act}).value().acts.at(0);
    EXPECT_EQ(here.kept, there.kept);
    EXPECT_EQ(here.position, there.position);
    EXPECT_FALSE(here.fresh);
    return here.kept ? "kept" : codes_of(here.problems);
  }
};

TEST(SameAct, EverySortIsKnownAgainAlsoByAProgramThatWasStartedAnew) {
  SentAgain on;
  const std::size_t events = on.bench.recorded().events.size();
  for (const Act& each : on.acts) EXPECT_EQ(on.again(each), "kept") << each.body.index();
  EXPECT_EQ(on.bench.recorded().events.size(), events) << "and counts once";
}

TEST(SameAct, TheDevicesOwnCountMayDiffer) {
  SentAgain on;
  for (Act each : on.acts) {
    each.head.sequence += 40;
    EXPECT_EQ(on.again(each), "kept") << each.body.index();
  }
}

TEST(SameAct, AnotherSortOfActUnderTheSameIdIsRefused) {
  SentAgain on;
  for (const Act& each : on.acts) {
    for (const Act& other : on.acts) {
      if (each.body.index() == other.body.index()) continue;
      EXPECT_EQ(on.again({each.head, other.body}), "store.other_bytes");
    }
  }
}

TEST(SameAct, WhoeverSendsItIsPartOfIt) {
  SentAgain on;
  Act other = on.acts.front();
  other.head.who = "AK";
  EXPECT_EQ(on.again(other), "store.other_bytes");
  other = on.acts.front();
  other.head.device = "d-2";
  EXPECT_EQ(on.again(other), "store.other_bytes");
  other = on.acts.front();
  other.head.made_at = "2031-05-04T10:12:06+02:00";
  EXPECT_EQ(on.again(other), "store.other_bytes");
}

template <class Body, class Change>
std::string changed(SentAgain& on, std::size_t act, const Change& change) {
  Act other = on.acts.at(act);
  change(std::get<Body>(other.body));
  return on.again(other);
}

TEST(SameAct, OtherContentIsRefusedWhateverPartOfItDiffers) {
  SentAgain on;
  const std::vector<std::string> answers = {
      changed<GaugeAct>(on, 0, [](GaugeAct& act) { act.turn = "0.1 mm"; }),
      changed<GaugeAct>(on, 0, [](GaugeAct& act) { act.division.reset(); }),
      changed<SettingAct>(on, 1, [](SettingAct& act) { act.set = "3.0708 in"; }),
      changed<SettingAct>(on, 1, [](SettingAct& act) { act.zeros = std::vector<std::string>{"1 acw", "1 acw"}; }),
      changed<LimitAct>(on, 2, [](LimitAct& act) { act.bound = "0.05 mm"; }),
      changed<LimitAct>(on, 2, [](LimitAct& act) { act.page = "15"; }),
      changed<ReadingAct>(on, 3, [](ReadingAct& act) { act.text = "no text at all"; }),
      changed<ReadingAct>(on, 3, [](ReadingAct& act) { act.text = "79 acw"; }),
      changed<ReadingAct>(on, 3, [](ReadingAct& act) { act.part = "bore-2"; }),
      changed<ReadingAct>(on, 3, [](ReadingAct& act) { act.note.reset(); }),
      changed<ReadingAct>(on, 3, [](ReadingAct& act) { act.read_by = "AK"; }),
      changed<ReadingAct>(on, 4, [](ReadingAct& act) { act.unit = UnitId::inch; }),
      changed<ZeroAct>(on, 5, [](ZeroAct& act) { act.closes = false; }),
      changed<TemperaturesAct>(on, 6, [](TemperaturesAct& act) { act.master = "21 °C"; }),
      changed<FindingAct>(on, 7, [](FindingAct& act) { act.weight = FindingWeight::condemns; }),
      changed<TakeVerdictAct>(on, 8, [](TakeVerdictAct& act) { act.word = TakenWord::beyond; }),
      changed<WithdrawAct>(on, 9, [](WithdrawAct& act) { act.why = "other"; }),
  };
  for (std::size_t i = 0; i < answers.size(); ++i) EXPECT_EQ(answers[i], "store.other_bytes") << i;
}

TEST(SameAct, WhatTheServerMadeOfItDoesNotCount) {
  SentAgain on;
  Act taken = on.bench.act(on.bench.main("main-1", "front", "vertical", "51.981"));
  std::get<ReadingAct>(taken.body).order = std::get<ReadingAct>(on.acts[4].body).order;
  on.keep(taken);
  EXPECT_NE(on.bench.now().readings.back().value.order, std::get<ReadingAct>(taken.body).order) << "the next one that is free";
  EXPECT_EQ(on.again(taken), "kept");
  const Act in_mm = on.bench.act(on.bench.bore("bore-2", "top", "thrust", "0.071 mm acw"));  // a unit of its own beside "div"
  on.keep(in_mm);
  EXPECT_EQ(on.again(in_mm), "kept");
  Act of_column = on.bench.act(on.bench.bore("bore-2", "mid", "thrust", "0.031 acw"));
  std::get<ReadingAct>(of_column.body).unit = UnitId::millimetre;
  on.keep(of_column);
  EXPECT_EQ(on.again(of_column), "kept");
  std::get<ReadingAct>(of_column.body).unit = UnitId::division;
  EXPECT_EQ(on.again(of_column), "store.other_bytes") << "not the same figure";
  on.keep(on.bench.act(ZeroAct{"bg-1", "1", 800, "1 acw", true}));
  const Act late = on.bench.act(on.bench.bore("bore-3", "top", "thrust", "77 acw"));
  Act away = late;
  away.head.device = "d-2";
  std::get<ReadingAct>(away.body).order = 900;
  on.keep(away);
  EXPECT_EQ(on.bench.now().readings.back().value.order, std::nullopt);
  EXPECT_EQ(on.again(away), "kept");
}

}  // namespace
}  // namespace fettle
