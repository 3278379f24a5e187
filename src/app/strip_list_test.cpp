#include "app/strip_list.h"

#include <algorithm>
#include <gtest/gtest.h>

#include "app/new_engine.h"
#include "app/whole_engine.h"
#include "job/fold.h"
#include "limits/sheet_file.h"
#include "text/sentence.h"

namespace fettle {
namespace {

using Answers = std::vector<NewEngineAct::Answer>;

/// An engine of a few answers, and what happened to it since.
class OnTheStand {
 public:
  explicit OnTheStand(Answers answers) {
    NewEngineAct act{};
    act.name = "Wagtail";
    act.engine = "Wagtail";
    act.shown_unit = UnitId::millimetre;
    act.answers = std::move(answers);
    const auto payloads = engine_payloads(act);
    for (const Payload& each : payloads.value()) happens(each);
  }

  void happens(Payload payload) {
    std::string id = std::to_string(events_.size());
    events_.push_back({std::string(32 - id.size(), '0') + id, "wagtail", "here", static_cast<std::int64_t>(events_.size()), "", "JB", std::move(payload)});
  }
  void answer(const std::string& step, StripAnswer answer, const std::string& note = "") { happens(StripStepAnswered{step, answer, note}); }
  void reads(const std::string& part, const std::string& station, const std::string& text) {
    happens(ReadingTaken{{part, station, "reading", read_quantity(text, {{}, {}, DecimalMark::point, {}, false, {}}, {}).value(), "none", "", {}, {}, {}, ReadingFlag::none, "", {}}});
  }

  [[nodiscard]] Job job() const { return fold(events_).job; }

 private:
  std::vector<EventEnvelope> events_;
};

const StripLine* line_of(const StripList& list, std::string_view step) {
  const auto found = std::find_if(list.lines.begin(), list.lines.end(), [&](const StripLine& each) { return each.step->id == step; });
  return found == list.lines.end() ? nullptr : &*found;
}

/// Looks at one step of the job.
struct Seen {
  explicit Seen(const OnTheStand& stand, std::string_view step) : job(stand.job()), list(strip_list(job, nullptr)), line(line_of(list, step)) {}
  [[nodiscard]] std::string words() const { return sentence(line->line, Language::english); }
  Job job;
  StripList list;
  const StripLine* line;
};

TEST(StripList, IsBuiltFromWhatTheEngineIsMadeOf) {
  const OnTheStand four(Answers{{"timing-drive", "belt"}, {"liners", "wet"}});
  EXPECT_NE(Seen(four, "stand-out-found").line, nullptr);
  EXPECT_NE(Seen(four, "drive-slack").line, nullptr);
  EXPECT_EQ(Seen(four, "backlash-found").line, nullptr) << "it has a belt";
  EXPECT_EQ(Seen(four, "case-pressure-test").line, nullptr);
  const OnTheStand two(Answers{{"cycle", "two-stroke"}, {"cylinders", "1"}, {"big-ends", "rolling"}});
  EXPECT_NE(Seen(two, "case-pressure-test").line, nullptr);
  EXPECT_EQ(Seen(two, "lash-found").line, nullptr) << "it has no valves";
  EXPECT_EQ(Seen(two, "end-float-found").line, nullptr) << "its crank is built up";
}

TEST(StripList, AMeasuringStepIsReadWhenEveryPlaceIs) {
  OnTheStand stand(Answers{{"cylinders", "2"}});
  EXPECT_EQ(Seen(stand, "compression-test").line->state, StripState::to_do);
  EXPECT_EQ(Seen(stand, "compression-test").line->next, "compression");
  stand.reads("compression", "cylinder-1", "11.2 bar");
  EXPECT_EQ(Seen(stand, "compression-test").words(), "begun, 1 of 2 read");
  stand.reads("compression", "cylinder-2", "8.1 bar");
  const Seen done(stand, "compression-test");
  EXPECT_EQ(done.line->state, StripState::read);
  EXPECT_FALSE(done.line->next);
}

TEST(StripList, OnlyWhatCanBeReadNowBelongsToAStep) {
  OnTheStand stand(Answers{{"cylinders", "1"}});
  for (const char* lobe : {"lobe-1in", "lobe-1ex"}) {
    stand.reads(lobe, "dial-most", "6.20 mm");
    stand.reads(lobe, "dial-least", "0.00 mm");
  }
  EXPECT_EQ(Seen(stand, "lift-found").line->state, StripState::read) << "heel to toe is measured when the camshaft is out";
}

TEST(StripList, WhatStrippingDestroyedIsSaidToBeLost) {
  OnTheStand stand(Answers{{"cylinders", "2"}});
  stand.reads("compression", "cylinder-1", "11.2 bar");
  stand.answer("leak-down-test", StripAnswer::cannot, "no compressor");
  stand.answer("head-off", StripAnswer::done);
  EXPECT_EQ(Seen(stand, "compression-test").line->state, StripState::lost) << "one cylinder is not a test";
  EXPECT_EQ(Seen(stand, "compression-test").words(), "no longer possible: Lift the head off; photograph its gasket before you clean anything");
  EXPECT_EQ(Seen(stand, "leak-down-test").words(), "cannot be done (no compressor)") << "somebody has answered before";
  EXPECT_EQ(Seen(stand, "end-float-found").line->state, StripState::to_do) << "the crank is still in";
}

TEST(StripList, TheNextStepIsTheFirstThatNobodyAnswered) {
  OnTheStand stand(Answers{{"cylinders", "2"}});
  EXPECT_EQ(Seen(stand, "clean").list.next, 0U);
  stand.answer("sides-and-ends", StripAnswer::done);
  stand.answer("photos-before", StripAnswer::not_wanted);
  const Seen seen(stand, "clean");
  EXPECT_EQ(seen.list.lines[*seen.list.next].step->id, "compression-test");
  EXPECT_EQ(seen.list.answered, 2U);
}

TEST(StripList, NutsAreLoosenedTheOtherWayRound) {
  OnTheStand stand(Answers{{"cylinders", "2"}});
  EXPECT_EQ(Seen(stand, "head-loosen").line->order.front().key, "strip_loosen.none");
  LimitSheet sheet{"the invented book", "1", {}, {}, {}};
  SheetRow row{};
  row.id = "head-bolts";
  row.what = "Head bolts";
  row.kind = "head-face";
  row.sequence = "5-3-1-2-4-6";
  sheet.rows.push_back(row);
  row.id = "main-caps";
  row.what = "Main caps";
  row.kind = "main-journal";
  row.sequence = "middle first, then outward";
  sheet.rows.push_back(row);
  stand.happens(SheetEntered{"torques", sheet, ""});
  const Seen head(stand, "head-loosen");
  ASSERT_EQ(head.line->order.size(), 1U);
  EXPECT_EQ(sentence(head.line->order[0], Language::english), "Loosen Head bolts in this order: 6-4-2-1-3-5 (the invented book)");
  EXPECT_EQ(sentence(Seen(stand, "mains-loosen").line->order[0], Language::english),
            "Main caps is tightened so: middle first, then outward (the invented book). Loosen it the other way round");
}

TEST(StripList, OnlyARowOfNumbersIsTurnedRound) {
  EXPECT_EQ(turned_round("10-2-1"), "1-2-10");
  for (const char* none : {"", "7", "1--2", "1-2-", "-1", "1 2", "a-b"}) EXPECT_FALSE(turned_round(none)) << none;
}

std::string worries(const OnTheStand& stand) {
  std::string out;
  for (const Message& each : untested_for_cracks(stand.job())) out += sentence(each, Language::english) + "; ";
  return out;
}

TEST(StripList, WhatNobodyTestedForCracksCouldEndTheJob) {
  OnTheStand stand(Answers{{"cylinders", "1"}});
  EXPECT_EQ(worries(stand), "crank not crack-tested; head not crack-tested; block not crack-tested; rods not crack-tested; ");
  Finding clear{"crank", "no crack", FindingWeight::note, "", {}, FindingSort::crack, FindingTest::magnetic, TestOutcome::none_found, {}, {}, {}};
  stand.happens(FindingSeen{clear});
  stand.answer("crack-test-head", StripAnswer::cannot);
  stand.answer("crack-test-rods", StripAnswer::done);
  EXPECT_EQ(worries(stand), "head: crack test cannot be done; block not crack-tested; ");
}

TEST(StripList, ALaterTestAnswersWhatNeededOne) {
  OnTheStand stand(Answers{{"cylinders", "1"}, {"liners", "plated"}});
  stand.happens(FindingSeen{{"crank", "a line across the fillet", FindingWeight::needs_test, "", {}, FindingSort::crack, FindingTest::eye, {}, {}, {}, {}}});
  const auto said = [&] {
    const RecordedJob recorded{stand.job(), {}, {}};
    std::string out;
    for (const Message& each : whole_engine(recorded, nullptr, {}).worry) out += sentence(each, Language::english) + "; ";
    return out;
  };
  EXPECT_NE(said().find("a line across the fillet waits for another test"), std::string::npos) << said();
  stand.happens(FindingSeen{{"crank", "clear", FindingWeight::note, "", {}, FindingSort::crack, FindingTest::dye, TestOutcome::none_found, {}, {}, {}}});
  EXPECT_EQ(said().find("a line across the fillet"), std::string::npos) << said();
}

TEST(StripList, GroupsThatComeInStepsStandThereUnknownUntilSeen) {
  OnTheStand stand(Answers{{"cylinders", "2"}});
  const Seen before(stand, "clean");
  const auto bores = std::find_if(before.list.groups.begin(), before.list.groups.end(), [](const GroupStep& each) { return each.kind == "cylinder-bore"; });
  ASSERT_NE(bores, before.list.groups.end());
  EXPECT_EQ(bores->step.kind, StepKind::unknown);
  stand.happens(StepSeen{{"bore-1"}, {StepKind::standard, {}, "crown"}});
  const Seen after(stand, "clean");
  EXPECT_TRUE(std::find_if(after.list.groups.begin(), after.list.groups.end(), [](const GroupStep& each) { return each.kind == "cylinder-bore"; })->mixed);
}

TEST(StripList, WhatWasReadWithoutATickIsSaidOnceTicksAreMade) {
  OnTheStand stand(Answers{{"cylinders", "2"}});
  stand.reads("piston-1", "skirt", "83.9 mm");
  stand.reads("piston-2", "skirt", "83.9 mm");
  EXPECT_TRUE(read_without_ticks(stand.job()).empty()) << "nobody works with ticks here";
  stand.happens(PartsReady{{"piston-2"}, MeasuredWhen::clean, "2031-05-04 08:00 +02:00"});
  std::string said;
  for (const Message& each : read_without_ticks(stand.job())) said += sentence(each, Language::english) + "; ";
  EXPECT_EQ(said, "piston 1 read without a tick for clean and dry; pistons 1 and 2 read without a tick for rested, at the gauges' temperature; ");
}

}  // namespace
}  // namespace fettle
