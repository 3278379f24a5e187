#include "job/take_on.h"

#include <gtest/gtest.h>

#include "job/fold.h"
#include "numeric/xoshiro.h"

namespace fettle {
namespace {

TypedQuantity needle(int divisions) {
  return read_quantity(std::to_string(divisions) + " acw", {{}, {}, DecimalMark::point, {}, true, {}}, {}).value();
}

/// Any event that may follow the ones before it, valid or not: few ids, so that they meet.
class RandomLog {
 public:
  explicit RandomLog(std::uint64_t seed) : random_(Xoshiro256::stream(seed, 0)) {}

  std::vector<EventEnvelope> make(std::size_t length) {
    std::vector<EventEnvelope> out;
    for (std::size_t i = 0; i < length; ++i) out.push_back({"e" + std::to_string(i), "job", "d", static_cast<std::int64_t>(i), "", "", payload(i)});
    return out;
  }

 private:
  std::size_t below(std::size_t bound) { return (random_.next() >> 32U) % bound; }
  std::string one_of(const std::string& name, std::size_t bound) { return name + std::to_string(below(bound)); }

  Payload payload(std::size_t so_far) {
    constexpr std::size_t kSorts = 29;
    switch (below(kSorts)) {
      case 0: return JobOpened{one_of("name", 3), {}, {}, UnitId::millimetre, ""};
      case 1: return EngineDescribed{one_of("engine", 3), {}, {}, "", {}, "", "", ""};
      case 2: return LayoutChosen{one_of("kind", 2), {}};
      case 3: return PartEntered{{one_of("bore-", 6), "cylinder-bore", "", {}, {StepKind::unknown, {}, ""}, Condition::worn}};
      case 4: return FindingSeen{{one_of("bore-", 3), "score", FindingWeight::note, "", {}}};
      case 5: return GaugeRegistered{{one_of("g", 6), "p", {}, {}, {}, {}, {}, {}, {}}};
      case 6: return SettingMade{{one_of("s", 4), "g0", {}, {}, {}, {}, {}, {}, {}, {}}};
      case 7: return GaugeFoundOut{{"g0", {}, {}, {}, {}, ""}};
      case 8: return RuleChosen{{RuleKind::reading, Ratio::of(19, 20), TieRule::equal_is_within}};
      case 9: return EventWithdrawn{one_of("e", so_far + 1), "w"};
      case 10: return FileAttached{"", "", one_of("name", 9), {}, ""};
      case 11: return ZeroLooked{one_of("s", 4), one_of("", 3), static_cast<std::int64_t>(below(5)), needle(1), below(2) == 0};
      case 12: return TemperaturesTaken{one_of("s", 4), needle(static_cast<int>(below(9))), {}};
      case 13: return VerdictTaken{one_of("bore-", 2), {}, TakenWord::within, one_of("why", 9), VerdictWord::within};
      case 14: return LimitEntered{{one_of("limit", 6), "k", "d", LimitRole::fresh, LimitSide::at_least, needle(1), {}, {}, {"", "", "", "", false, false}}};
      case 15: return StepSeen{{one_of("bore-", 6), one_of("bore-", 6)}, {StepKind::unknown, {}, one_of("crown", 3)}};
      case 16: return StripStepAnswered{one_of("step", 3), StripAnswer::done, one_of("note", 9)};
      case 17: return PartsReady{{one_of("bore-", 6)}, MeasuredWhen::clean, ""};
      case 18: return QuestionAnswered{one_of("bore-", 2), "top", "thrust", one_of("s", 2), "3", "needle-side", 50, QuestionAnswer::stands, {}};
      default: return ReadingTaken{reading(so_far)};
    }
  }

  Reading reading(std::size_t so_far) {
    Reading out{"bore-1", "top", "thrust", needle(static_cast<int>(below(90))), one_of("s", 4), one_of("", 3), static_cast<std::int64_t>(below(6)),
                {},       {},    ReadingFlag::none, "", {}};
    if (below(4) == 0) out.supersedes = one_of("e", so_far + 1);
    if (below(5) == 0) out.order.reset();
    return out;
  }

  Xoshiro256 random_;
};

TEST(TakeOn, EventByEventIsTheFoldOfAllOfThem) {
  std::size_t taken = 0;
  std::size_t anew = 0;
  for (std::uint64_t seed = 1; seed <= 300; ++seed) {
    const std::vector<EventEnvelope> events = RandomLog(seed).make(40);
    Job job = fold({events.front()}).job;
    for (std::size_t length = 2; length <= events.size(); ++length) {
      const std::vector<EventEnvelope> all(events.begin(), events.begin() + static_cast<std::ptrdiff_t>(length));
      const Folded whole = fold(all);
      const Job before = job;
      if (take_on(job, all.back())) {
        ++taken;
        ASSERT_TRUE(job == whole.job) << "seed " << seed << ", event " << length << ": " << type_of(all.back().payload).name;
      } else {
        ++anew;
        ASSERT_TRUE(job == before) << "seed " << seed << ", event " << length << ": " << type_of(all.back().payload).name;
      }
      job = whole.job;
    }
  }
  EXPECT_GT(taken, 4000U) << "the short way is really walked";
  EXPECT_GT(anew, 1000U);
}

/// A fold has problems of its own; the short way must not hide one that the whole fold would tell.
TEST(TakeOn, WhatWouldBeAProblemIsLeftToTheFold) {
  std::size_t refused = 0;
  for (std::uint64_t seed = 1; seed <= 100; ++seed) {
    const std::vector<EventEnvelope> events = RandomLog(seed).make(40);
    std::size_t problems = fold({events.front()}).problems.size();
    Job job = fold({events.front()}).job;
    for (std::size_t length = 2; length <= events.size(); ++length) {
      const std::vector<EventEnvelope> all(events.begin(), events.begin() + static_cast<std::ptrdiff_t>(length));
      const Folded whole = fold(all);
      const bool more = whole.problems.size() > problems;
      if (more) ++refused;
      EXPECT_FALSE(take_on(job, all.back()) && more) << "seed " << seed << ", event " << length;
      problems = whole.problems.size();
      job = whole.job;
    }
  }
  EXPECT_GT(refused, 100U);
}

}  // namespace
}  // namespace fettle
