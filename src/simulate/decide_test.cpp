#include "simulate/decide.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "form/shape_group.h"
#include "simulate/families_file.h"

namespace fettle {
namespace {

constexpr std::int64_t kMicrometre = Length::kCountsPerMillimetre / 1000;

/// A verdict over a limit of the simulated job, from a reading so many µm short of its bound. The doubt is `u_um`.
Verdict verdict_of(const SimulatedEngine& engine, const std::string& limit, double room_um, double u_um) {
  const auto found = std::find_if(engine.job.limits.begin(), engine.job.limits.end(), [&](const auto& each) { return each.value.id == limit; });
  if (found == engine.job.limits.end()) throw InternalError("no limit " + limit);
  const Ratio bound = bound_of(found->value);
  const Ratio room = Ratio::of(static_cast<Int128>(std::lround(room_um * 1000.0)) * kMicrometre, 1000);
  return {"bore-1", limit, VerdictWord::not_judged, {}, {}, bound, bound - room, {}, {}, Doubt{0.0, u_um / 1000.0, {}, 0.0, 0.0, {}, {}}, {}};
}

ShapeGroup empty_group() {
  return {{}, {84.0, 1.0}, {WearPattern::from_first, {}, {}, {}, false, 0.0, {}, SizeHistory::stated}, {}, {}, {}, {}, {}, {}, 1.0, 0.0, {}, {}};
}

GroupEstimate by_shape(const ShapeGroup& group = empty_group()) {
  return {"cylinder-bore", EstimateModel::shape, {}, {}, {}, {}, std::make_shared<const ShapeGroup>(group)};
}

class Decide : public testing::Test {
 protected:
  Outcome decided(std::vector<Verdict> verdicts, const std::vector<GroupEstimate>& groups = {by_shape()}) {
    Judgement judgement{};
    judgement.verdicts = std::move(verdicts);
    judgement.joint = joint_;
    return decide(engine_, truth_, judgement, groups, exact_);
  }

  /// Room for all four rules, by a size limit with u = 4.
  static std::vector<bool> rules(const Outcome& out) {
    return {out.notebook_equal_passes, out.notebook_equal_fails, out.guarded_passes, out.bias_corrected_passes};
  }

  const EngineFamily& family_ = *find_family(built_in_families(), "exp");
  SimulatedEngine engine_ = simulate_engine(family_, *find_hand(built_in_hands(), "mid"), 6, 0);
  TruthJudge truth_{family_};
  JointVerdict joint_{VerdictWord::not_judged, PlainFigure{0.25, 0.0, 1}, {}, Chance{0.75, 0.0, 1}, {}};
  std::optional<double> exact_ = 0.5;
};

// Room 0 is a tie; the guard band asks for one u; a size has no bias of a range.
TEST_F(Decide, ASizeByEveryRule) {
  struct Row {
    double room_um;
    std::vector<bool> passes;  // equal passes, equal fails, guarded, bias corrected
  };
  for (const Row& row : std::vector<Row>{{4.01, {true, true, true, true}},
                                         {3.9, {true, true, false, true}},
                                         {0.001, {true, true, false, true}},
                                         {0.0, {true, false, false, true}},
                                         {-0.001, {false, false, false, false}}}) {
    EXPECT_EQ(rules(decided({verdict_of(engine_, "service-size-1", row.room_um, 4.0)})), row.passes) << row.room_um;
  }
}

// The mean range of two readings of one size is 2/√π of their sd, which is u/√2 of a difference: 0.798 u (Tippett 1925, table of mean ranges).
TEST_F(Decide, ARangeIsTakenBackByItsMeanBias) {
  const double bias = 2.0 / std::sqrt(3.14159265358979) / std::sqrt(2.0) * 5.0;
  for (const char* limit : {"service-oor-1", "service-tap-2"}) {
    EXPECT_TRUE(decided({verdict_of(engine_, limit, -bias + 0.01, 5.0)}).bias_corrected_passes) << limit;
    EXPECT_FALSE(decided({verdict_of(engine_, limit, -bias - 0.01, 5.0)}).bias_corrected_passes) << limit;
    EXPECT_FALSE(decided({verdict_of(engine_, limit, -0.01, 5.0)}).notebook_equal_passes) << limit;
  }
}

TEST_F(Decide, OneLimitFailsAnEngineAndLimitsForNewPartsDoNot) {
  std::vector<Verdict> verdicts = {verdict_of(engine_, "service-size-1", 20.0, 4.0), verdict_of(engine_, "service-oor-1", 20.0, 4.0),
                                   verdict_of(engine_, "new-size-1", -30.0, 4.0)};
  EXPECT_EQ(rules(decided(verdicts)), (std::vector<bool>{true, true, true, true}));
  verdicts.push_back(verdict_of(engine_, "service-tap-2", -30.0, 4.0));
  EXPECT_EQ(rules(decided(verdicts)), (std::vector<bool>{false, false, false, false}));
}

TEST_F(Decide, ChancesAreThoseOfTheJudgement) {
  Outcome out = decided({});
  EXPECT_EQ(out.ours, 0.75);
  EXPECT_EQ(out.flat, 0.25);
  EXPECT_EQ(out.exact, 0.5);
  EXPECT_EQ(out.readings, 24U);
  EXPECT_EQ(out.good, truth_.keeps(engine_.truth));
  EXPECT_FALSE(out.misfit);
  // The truth is judged at every place of the plan, so the forecast over all of them is what is scored.
  joint_.forecast = Chance{0.6, 0.0, 1};
  EXPECT_EQ(decided({}).ours, 0.6);
  // A group that was given up stands behind no chance.
  GroupEstimate given_up = by_shape();
  given_up.model = EstimateModel::plain;
  given_up.shape.reset();
  given_up.said = {{"shape.gave_up", {}}};
  out = decided({}, {by_shape(), given_up});
  EXPECT_FALSE(out.ours.has_value());
  EXPECT_TRUE(out.misfit);
  EXPECT_EQ(out.flat, 0.25);
}

TEST_F(Decide, WhatLooksStrangeIsKept) {
  ShapeGroup group = empty_group();
  group.suspects.push_back({{"r"}, "bore-1", 0, 0.001, 84.0, 0.9, 84.1, 0.001});
  EXPECT_TRUE(decided({}, {by_shape(group)}).misfit);
  group = empty_group();
  group.misfit_tail = 1e-5;
  EXPECT_TRUE(decided({}, {by_shape(group)}).misfit);
  GroupEstimate said = by_shape();
  said.said = {{"shape.without_part", {}}};
  EXPECT_TRUE(decided({}, {said}).misfit);
}

}  // namespace
}  // namespace fettle
