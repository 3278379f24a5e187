#include "app/do_acts.h"

#include <gtest/gtest.h>

#include <thread>

#include "app/acts_on_bench.h"
#include "app/round_plan.h"

namespace fettle {
namespace {

std::string code_of(const ActDone& done) { return done.kept ? "kept" : codes_of(done.problems); }

TEST(DoActs, WhatIsKeptIsInTheLogWhenItIsAnswered) {
  ActsOnBench bench;
  bench.ready();
  const ActDone done = bench.send(ActBody(bench.bore("bore-2", "top", "thrust", "71 acw")));
  const RecordedJob log = bench.recorded();
  EXPECT_EQ(done.position, log.accepted.back().position);
  EXPECT_EQ(log.events.back().id, done.id);
  EXPECT_EQ(log.events.back().device, "d-1");
  EXPECT_EQ(log.events.back().who, "JB");
  EXPECT_EQ(log.events.back().made_at, "2031-05-04T10:12:05+02:00");
  EXPECT_EQ(std::get<ReadingTaken>(log.events.back().payload).reading.quantity.text, "71 acw");
  EXPECT_TRUE(log.job == bench.now()) << "what is in memory is the fold of the log";
  EXPECT_EQ(english(done.said), "top · thrust 78.069");
}

TEST(DoActs, TheSameActTwiceCountsOnce) {
  ActsOnBench bench;
  bench.ready();
  const Act once = bench.act(bench.bore("bore-2", "top", "thrust", "71 acw"));
  const ActsDone first = bench.send({once});
  EXPECT_TRUE(bench.send(ActBody(bench.bore("bore-2", "mid", "thrust", "31 acw"))).kept);
  const ActsDone again = bench.send({once, once});
  for (const ActDone& each : again.acts) {
    EXPECT_TRUE(each.kept);
    EXPECT_FALSE(each.fresh);
    EXPECT_EQ(each.position, first.acts.at(0).position) << "its old acceptance; nothing is read anew";
  }
  const Act third = bench.act(bench.bore("bore-2", "bottom", "thrust", "18 acw"));
  const ActsDone both = bench.send({third, third});
  EXPECT_EQ(both.acts.at(0).position, both.acts.at(1).position);
  EXPECT_EQ(bench.now().readings.size(), 3U);
}

TEST(DoActs, ARefusedActKeepsOnlyOutWhatRestsOnIt) {
  ActsOnBench bench;
  bench.ready();
  ReadingAct resting = bench.bore("bore-1", "top", "thrust", "78 acw");
  resting.setting = "bg-2";
  const ActsDone done = bench.send({bench.act(SettingAct{"bg-2", "bg", "nobody", {}, {}, {}, {}, {}, {}, {}}), bench.act(resting),
                                    bench.act(bench.bore("bore-1", "mid", "thrust", "34 acw"))});
  EXPECT_EQ(code_of(done.acts.at(0)), "gauging.master_unknown");
  EXPECT_EQ(code_of(done.acts.at(1)), "gauging.unknown_setting");
  EXPECT_EQ(code_of(done.acts.at(2)), "kept");
  EXPECT_EQ(bench.recorded().job.readings.size(), 1U);
}

TEST(DoActs, AReadingThatIsPutRightOrFlaggedSupersedes) {
  ActsOnBench bench;
  bench.ready();
  const ActDone first = bench.send(ActBody(bench.bore("bore-4", "top", "thrust", "61 acw")));
  ReadingAct carbon = bench.bore("bore-4", "top", "thrust", "61 acw");
  carbon.supersedes = first.id;
  carbon.why = "carbon";
  carbon.flag = ReadingFlag::deposit;
  carbon.read_by = "MW";
  EXPECT_TRUE(bench.send(ActBody(carbon)).kept);
  EXPECT_TRUE(bench.send(ActBody(bench.bore("bore-4", "top", "thrust", "84 acw"))).kept);
  const Job job = bench.recorded().job;
  ASSERT_EQ(job.readings.size(), 2U);
  EXPECT_EQ(job.readings[0].value.flag, ReadingFlag::deposit);
  EXPECT_EQ(job.readings[0].value.read_by, "MW");
  EXPECT_EQ(job.superseded_readings.size(), 1U);
  EXPECT_EQ(code_of(bench.send(ActBody(carbon))), "record.no_reading") << "what it corrected no longer stands";
}

TEST(DoActs, TwoDevicesThatCountAlikeLoseNothing) {
  ActsOnBench bench;
  bench.ready();
  ReadingAct here = bench.bore("bore-1", "top", "thrust", "78 acw");
  ReadingAct there = bench.bore("bore-1", "mid", "thrust", "34 acw");
  there.order = here.order;
  EXPECT_TRUE(bench.send(ActBody(here)).kept);
  EXPECT_TRUE(bench.send(ActBody(there)).kept);
  EXPECT_TRUE(bench.send(ActBody(ZeroAct{"bg-1", "1", here.order, "2 acw", true})).kept);
  const Job job = bench.recorded().job;
  EXPECT_EQ(job.readings[1].value.order, *job.readings[0].value.order + 1);
  EXPECT_TRUE(bench.jobs.judged(bench.job).ok()) << "two of one order could not be judged once the zero has moved";
}

/// All bores read and the zero looked at, while another device was away.
struct ClosedRound {
  ActsOnBench bench;
  std::int64_t after = 0;
  ClosedRound() {
    bench.ready();
    for (const char* bore : {"bore-1", "bore-2", "bore-3", "bore-4"}) bench.read_bore(bore, {78, 34, 18, 12}, {60, 28, 16, 12});
    after = *bench.now().readings.back().value.order;
    EXPECT_TRUE(bench.send(ActBody(ZeroAct{"bg-1", "1", after, "2 acw", true})).kept);
  }
  ActDone late(ReadingAct body, const std::string& device, std::int64_t sequence) {
    Act act = bench.act(std::move(body));
    act.head.device = device;
    act.head.sequence = sequence;
    return bench.send({act}).acts.at(0);
  }
  [[nodiscard]] ReadingAct of_bore_2(std::int64_t order) {
    ReadingAct out = bench.bore("bore-2", "top", "thrust", "71 acw");
    out.order = order;
    return out;
  }
  [[nodiscard]] bool closed() {
    const RecordedJob job = bench.recorded();
    EXPECT_TRUE(job.job == bench.now()) << "what is in memory is the fold of the log";
    const RoundPlan plan = plan_round(job, nullptr, {"bore-1", "bg-1", "1", false, {"JB", "2031-05-04T08:20:00Z"}}).value();
    EXPECT_NE(plan.closed, plan.zero_wanted);
    return plan.closed;
  }
  [[nodiscard]] std::optional<std::int64_t> last_order() { return bench.now().readings.back().value.order; }
  /// What the zero takes off the estimate of a reading, µm.
  [[nodiscard]] double taken_off(std::size_t reading) {
    const auto judged = bench.jobs.judged(bench.job).value();
    for (const Size& each : judged->sizes.sizes) {
      if (each.reading == judged->job.readings.at(reading).event) return 1000.0 * (each.as_measured.to_double() / static_cast<double>(Length::kCountsPerMillimetre) - each.estimate);
    }
    return -1000.0;
  }
};

TEST(DoActs, AReadingOfAnotherDeviceThatComesLateLeavesTheRoundClosed) {
  for (const std::int64_t order : {3, 90}) {  // taken by the first device, or counted past its zero
    ClosedRound round;
    EXPECT_TRUE(round.closed());
    const double first = round.taken_off(0);
    EXPECT_TRUE(round.late(round.of_bore_2(order), "d-2", 4).kept);
    EXPECT_TRUE(round.closed()) << order;
    EXPECT_EQ(round.last_order(), std::nullopt) << "nobody knows when it was read";
    EXPECT_EQ(round.bench.now().settings.front().value.closing_zero->text, "2 acw");
    EXPECT_EQ(round.taken_off(0), first) << "the others keep their line";
    EXPECT_NEAR(round.taken_off(31), 32 * first, 1e-9);
    EXPECT_NEAR(round.taken_off(31), 5.0 / 3.0, 1e-9) << "2 ↺ from the mean of 0, ↺1 and 0 is 5/3 of a division: the master seems so much larger";
    EXPECT_EQ(round.taken_off(32), 0.0) << "no line for it, but the wider doubt";
  }
}

TEST(DoActs, AReadingOfTheSameDeviceStandsWhereItsOwnCountPutsIt) {
  ClosedRound before;
  const std::int64_t zero = before.bench.sequence;
  EXPECT_TRUE(before.late(before.of_bore_2(4), "d-1", zero - 3).kept);
  EXPECT_TRUE(before.closed());
  EXPECT_EQ(before.last_order(), std::nullopt);
  EXPECT_TRUE(before.late(before.of_bore_2(before.after + 1), "d-1", zero + 9).kept);
  EXPECT_FALSE(before.closed()) << "read after the zero: it is to be looked at again";
  EXPECT_EQ(before.last_order(), before.after + 1);
  EXPECT_TRUE(before.bench.send(ActBody(ZeroAct{"bg-1", "1", before.after + 1, "3 acw", true})).kept);
  EXPECT_TRUE(before.closed());
}

TEST(DoActs, WhatIsPutRightAfterTheZeroWasReadBeforeIt) {
  ClosedRound round;
  ReadingAct put_right = round.bench.bore("bore-1", "top", "thrust", "78 acw");
  put_right.supersedes = round.bench.now().readings.front().event;
  put_right.why = "carbon";
  put_right.flag = ReadingFlag::deposit;
  EXPECT_TRUE(round.bench.send(ActBody(put_right)).kept);
  EXPECT_TRUE(round.closed());
  EXPECT_EQ(round.last_order(), 1);
}

TEST(DoActs, ZeroTemperaturesFindingVerdictAndWithdrawal) {
  ActsOnBench bench;
  bench.ready();
  bench.read_bore("bore-3", {144, 61, 24, 13}, {88, 49, 20, 14});
  const std::int64_t last = *bench.now().readings.back().value.order;
  EXPECT_TRUE(bench.send(ActBody(ZeroAct{"bg-1", "1", last, "2 acw", true})).kept);
  EXPECT_EQ(bench.now().settings.front().value.closing_zero->text, "2 acw");
  EXPECT_EQ(code_of(bench.send(ActBody(ZeroAct{"m-1", "1", last, "0", true}))), "gauging.not_for_direct") << "a micrometer has no needle";
  EXPECT_EQ(code_of(bench.send(ActBody(TemperaturesAct{"bg-1", "19.5 °C", {}}))), "gauging.temperature_half");
  EXPECT_EQ(code_of(bench.send(ActBody(TemperaturesAct{"bg-1", {}, {}}))), "acts.nothing_taken");
  EXPECT_EQ(code_of(bench.send(ActBody(TemperaturesAct{"bg-1", "-300 °C", "20 °C"}))), "gauging.temperature_impossible") << "nothing could be judged under it";
  EXPECT_EQ(code_of(bench.send(ActBody(SettingAct{"bg-9", "bg", "mic-in", "78.000 mm", "3.0709 in", {}, "195 °C", "19.5 °C", {}, {}}))), "gauging.temperature_impossible");
  EXPECT_EQ(code_of(bench.send(ActBody(ZeroAct{"bg-1", "1", last, "11111111 acw", true}))), "gauging.beyond_travel") << "a key that sticks";
  EXPECT_EQ(code_of(bench.send(ActBody(SettingAct{"bg-9", "bg", "mic-in", "78.000 mm", "3.0709 in", std::vector<std::string>{"0", "11111111 acw"}, {}, {}, {}, {}}))),
            "gauging.beyond_travel");
  EXPECT_TRUE(bench.jobs.judged(bench.job).ok());
  EXPECT_TRUE(bench.send(ActBody(TemperaturesAct{"bg-1", "19.5 °C", "19.5 °C"})).kept);
  EXPECT_EQ(bench.now().settings.front().value.part_temperature->text, "19.5 °C");
  EXPECT_EQ(code_of(bench.send(ActBody(FindingAct{"bore-9", "score", FindingWeight::note, {}, {}}))), "job.part_unknown");
  const ActDone seen = bench.send(ActBody(FindingAct{"bore-3", "score", FindingWeight::condemns, "top", "0.09 mm"}));
  EXPECT_TRUE(seen.kept);
  EXPECT_TRUE(bench.send(ActBody(TakeVerdictAct{"bore-3", {}, TakenWord::beyond, {}})).kept) << "as the program says";
  EXPECT_EQ(code_of(bench.send(ActBody(TakeVerdictAct{"bore-3", "bore-service", TakenWord::within, {}}))), "acts.why_needed");
  EXPECT_EQ(code_of(bench.send(ActBody(TakeVerdictAct{"bore-3", "no-limit", TakenWord::within, "so"}))), "acts.limit_unknown");
  EXPECT_TRUE(bench.send(ActBody(TakeVerdictAct{"bore-3", "bore-service", TakenWord::within, "goes into a pump"})).kept);
  const Job taken = bench.recorded().job;
  ASSERT_EQ(taken.taken.size(), 2U);
  EXPECT_EQ(taken.taken[0].value.program_word, VerdictWord::beyond);
  EXPECT_EQ(taken.taken[1].value.program_word, VerdictWord::beyond);
  EXPECT_EQ(code_of(bench.send(ActBody(WithdrawAct{std::string(32, '0'), "no"}))), "record.no_such_event");
  EXPECT_EQ(code_of(bench.send(ActBody(WithdrawAct{seen.id, " "}))), "record.no_reason");
  EXPECT_TRUE(bench.send(ActBody(WithdrawAct{seen.id, "it was dirt"})).kept);
  EXPECT_EQ(code_of(bench.send(ActBody(WithdrawAct{seen.id, "again"}))), "record.withdrawn_already");
  EXPECT_TRUE(bench.now().findings.empty());
  EXPECT_TRUE(bench.now() == bench.recorded().job);
  EXPECT_EQ(code_of(bench.send(ActBody(WithdrawAct{bench.recorded().events[2].id, "no such bore"}))), "kept") << "bore-1: nothing rests on it";
  EXPECT_EQ(code_of(bench.send(ActBody(WithdrawAct{bench.recorded().events[4].id, "no such bore"}))), "record.rule_broken record.rule_broken") << "bore-3 was read, and taken for beyond";
}

/// Judges as ever, and each of the first judgements finds a reading put in while it was made.
struct ReadMeanwhile {
  ActsOnBench bench;
  int judgings = 0;
  int most;
  OpenJobs jobs{bench.store, [this](const Job& job, const JudgeOptions& options) {
                  auto judged = judge_job(job, options);
                  if (++judgings <= most) {
                    EXPECT_TRUE(do_acts(jobs, bench.job, {bench.act(bench.bore("bore-3", "top", "thrust", "144 acw"))}).value().acts.at(0).kept);
                  }
                  return judged;
                }};
  explicit ReadMeanwhile(int times) : most(times) {
    bench.ready();
    bench.read_bore("bore-3", {62, 34, 18, 12}, {60, 28, 16, 12}, "top/thrust");
  }
  ActsDone send(const std::vector<Act>& acts) { return do_acts(jobs, bench.job, acts).value(); }
};

TEST(DoActs, AVerdictIsTakenOfTheJobAsItStandsWhenItIsKept) {
  ReadMeanwhile on(1);
  const ActsDone done = on.send({on.bench.act(TakeVerdictAct{"bore-3", "bore-service", TakenWord::beyond, {}})});
  EXPECT_EQ(code_of(done.acts.at(0)), "kept") << "the reading that came in between is past the limit, and the program says so";
  EXPECT_EQ(on.bench.recorded().job.taken.at(0).value.program_word, VerdictWord::beyond);
  EXPECT_EQ(on.judgings, 2);
}

TEST(DoActs, AVerdictThatIsOvertakenEachTimeIsRefusedAndTheRestIsKept) {
  ReadMeanwhile on(1000);
  const Act taken = on.bench.act(TakeVerdictAct{"bore-3", "bore-service", TakenWord::beyond, {}});
  const ActsDone done = on.send({on.bench.act(FindingAct{"bore-1", "score", FindingWeight::note, {}, {}}), taken, on.bench.act(FindingAct{"bore-2", "pit", FindingWeight::note, {}, {}})});
  EXPECT_EQ(code_of(done.acts.at(0)), "kept");
  EXPECT_EQ(code_of(done.acts.at(1)), "acts.judged_too_late");
  EXPECT_EQ(code_of(done.acts.at(2)), "kept");
  EXPECT_EQ(on.judgings, 5);
  EXPECT_EQ(done.position, static_cast<std::int64_t>(on.bench.recorded().events.size()));
  on.most = 0;
  EXPECT_EQ(code_of(on.send({taken}).acts.at(0)), "kept") << "once nobody types";
  on.judgings = 0;
  EXPECT_EQ(code_of(on.send({taken}).acts.at(0)), "kept");
  EXPECT_EQ(on.judgings, 0) << "it is there already";
}

TEST(DoActs, AVerdictSentWithItsReadingsIsJudgedWithThem) {
  ReadMeanwhile on(0);
  const Act reading = on.bench.act(on.bench.bore("bore-3", "top", "thrust", "144 acw"));
  const Act of_limit = on.bench.act(TakeVerdictAct{"bore-3", "bore-service", TakenWord::beyond, {}});
  const Act of_part = on.bench.act(TakeVerdictAct{"bore-3", {}, TakenWord::beyond, {}});
  const ActsDone done = on.send({reading, of_limit, of_part});
  for (const ActDone& each : done.acts) EXPECT_EQ(code_of(each), "kept");
  EXPECT_EQ(on.judgings, 1) << "a word that is taken moves no judgement";
}

TEST(DoActs, WhatIsTakenTwiceIsRefusedAndTheRestGoesOn) {
  ActsOnBench bench;
  bench.ready();
  EXPECT_EQ(code_of(bench.send(ActBody(GaugeAct{"bg", "dial-bore-gauge-0-001-mm", {}, {}, {}, {}, {}, {}}))), "job.id_taken");
  EXPECT_EQ(code_of(bench.send(ActBody(GaugeAct{"", "dial-bore-gauge-0-001-mm", {}, {}, {}, {}, {}, {}}))), "acts.id_empty");
  EXPECT_EQ(code_of(bench.send(ActBody(GaugeAct{"bg-9", "no-such-gauge", {}, {}, {}, {}, {}, {}}))), "gauging.unknown_preset");
  EXPECT_EQ(code_of(bench.send({bench.limit("l", "no-kind", "size-1", LimitRole::service, LimitSide::at_most, "1 mm")}).acts.at(0)), "job.kind_unknown");
  ReadingAct noted = bench.bore("bore-1", "top", "thrust", "78 acw");
  noted.note = std::string(2001, 'x');
  EXPECT_EQ(code_of(bench.send(ActBody(noted))), "acts.word_long");
  EXPECT_TRUE(bench.now() == bench.recorded().job);
}

/// Bore 1 read by JB but for one place; nothing else is known of it.
struct ReadByJb {
  ActsOnBench bench;
  explicit ReadByJb(int more = 0) {
    bench.ready(false);
    bench.read_bore("bore-1", {55 + more, 40 + more, 10 + more, 5 + more}, {40 + more, 35 + more, 10 + more, 5 + more}, "mid/pin");
  }
  [[nodiscard]] std::string asked(const std::string& who, const std::string& direction, const std::string& text, std::optional<std::string> read_by = {}) {
    Act act = bench.act(bench.bore("bore-1", "mid", direction, text));
    act.head.who = who;
    std::get<ReadingAct>(act.body).read_by = std::move(read_by);
    const ActDone done = bench.send({act}).acts.at(0);
    EXPECT_TRUE(done.kept);
    return done.question ? done.question->code : "-";
  }
};

TEST(DoActs, ASecondReadersQuestionLeansOnNothingOfTheFirst) {
  EXPECT_EQ(ReadByJb().asked("JB", "thrust", "455 acw"), "port-edge") << "beside the person's own";
  EXPECT_EQ(ReadByJb().asked("AK", "thrust", "455 acw"), "-") << "a second reading: nothing is known beside it";
  EXPECT_EQ(ReadByJb().asked("JB", "thrust", "455 acw", "AK"), "-") << "called out by AK";
  EXPECT_EQ(ReadByJb().asked("AK", "pin", "455 acw"), "port-edge") << "AK goes on where JB stopped";
  ReadByJb second;
  EXPECT_EQ(second.asked("AK", "thrust", "41 acw"), "-");
  ReadByJb otherwise(60);
  EXPECT_EQ(otherwise.asked("AK", "thrust", "41 acw"), "-");
  EXPECT_EQ(second.asked("AK", "pin", "455 acw"), otherwise.asked("AK", "pin", "455 acw")) << "the same whatever JB read";
}

TEST(DoActs, ASecondReaderIsAskedAlthoughTheFirstWasAlready) {
  ActsOnBench bench;
  bench.ready();
  EXPECT_TRUE(bench.send(ActBody(bench.bore("bore-2", "mid", "pin", "28 cw"))).question);
  EXPECT_FALSE(bench.send(ActBody(bench.bore("bore-2", "mid", "pin", "28 cw"))).question) << "asked once";
  Act act = bench.act(bench.bore("bore-2", "mid", "pin", "27 cw"));
  act.head.who = "AK";
  EXPECT_TRUE(bench.send({act}).acts.at(0).question);
  Act aside = bench.act(bench.bore("bore-2", "mid", "pin", "28 cw"));
  aside.head.who = "AK";
  std::get<ReadingAct>(aside.body).supersedes = bench.now().readings.at(0).event;
  std::get<ReadingAct>(aside.body).why = "needle side";
  EXPECT_TRUE(bench.send({aside}).acts.at(0).kept) << "what the second person was not told of can be put right all the same";
}

TEST(DoActs, ByWhomAndWhenIsCheckedWithAllTheRestAndKeepsNoOtherActOut) {
  ActsOnBench bench;
  bench.ready();
  Act wrong = bench.act(bench.bore("bore-1", "top", "thrust", "78"));
  wrong.head.who = "";
  wrong.head.made_at = "2031-05-04T10:12:05";
  std::get<ReadingAct>(wrong.body).read_by = "M\nW";
  const ActsDone done = bench.send({wrong, bench.act(bench.bore("bore-1", "mid", "thrust", "34 acw"))});
  EXPECT_EQ(code_of(done.acts.at(0)), "wire.not_a_name wire.not_a_moment wire.not_a_name entry.no_side");
  EXPECT_EQ(code_of(done.acts.at(1)), "kept");
}

TEST(DoActs, AJobThatIsNotThereIsTold) {
  ActsOnBench bench;
  EXPECT_EQ(refused(do_acts(bench.jobs, "nobody", {bench.act(WithdrawAct{std::string(32, '0'), "no"})})), "record.no_such_job");
}

/// Another program writes the same record between two acts.
TEST(DoActs, WhatAnotherProgramWroteIsSeen) {
  ActsOnBench bench;
  bench.ready();
  EXPECT_TRUE(bench.send(ActBody(bench.bore("bore-1", "top", "thrust", "78 acw"))).kept);
  ASSERT_TRUE(append(bench.store, bench.recorded(), {FileAttached{std::string(64, 'a'), "image/png", "x.png", {}, ""}}, {"M", "2031"}).ok());
  EXPECT_TRUE(bench.send(ActBody(bench.bore("bore-1", "mid", "thrust", "34 acw"))).kept);
  EXPECT_EQ(bench.now().files.size(), 1U);
  EXPECT_TRUE(bench.now() == bench.recorded().job);
}

TEST(DoActs, ManyHandsAtOnceLoseNothing) {
  ActsOnBench bench;
  bench.ready();
  constexpr int kHands = 4;
  constexpr int kEach = 25;
  std::vector<std::vector<Act>> all(kHands);
  for (auto& acts : all) {
    for (int i = 0; i < kEach; ++i) acts.push_back(bench.act(bench.bore("bore-1", "top", "thrust", std::to_string(70 + i % 9) + " acw")));
  }
  std::vector<std::thread> hands;
  for (int hand = 0; hand < kHands; ++hand) {
    hands.emplace_back([&bench, &acts = all[static_cast<std::size_t>(hand)], hand] {
      OpenJobs own(bench.store);  // every other one as if in another program
      for (const Act& each : acts) {
        const auto done = do_acts(hand % 2 == 0 ? bench.jobs : own, bench.job, {each});
        EXPECT_TRUE(done.ok() && done.value().acts.at(0).kept);
      }
    });
  }
  for (std::thread& each : hands) each.join();
  const RecordedJob log = bench.recorded();
  EXPECT_EQ(log.job.readings.size(), std::size_t{kHands * kEach});
  EXPECT_TRUE(bench.now() == log.job);
  std::vector<bool> orders(1000, false);
  for (const auto& each : log.job.readings) {
    EXPECT_FALSE(orders[static_cast<std::size_t>(*each.value.order)]) << "two of one order";
    orders[static_cast<std::size_t>(*each.value.order)] = true;
  }
}

}  // namespace
}  // namespace fettle
