#include "verdict/judged_by.h"

#include <gtest/gtest.h>

#include "form/shape_group.h"

namespace fettle {
namespace {

GroupEstimate group_of(const std::string& part, EstimateModel model) {
  GroupEstimate out{"journal", model, {model == EstimateModel::shape ? "why.shape_model_alone" : "why.plainly", {}}, {{part, {}}}};
  return out;
}

Verdict verdict_on(const std::string& part) { return {part, "limit", VerdictWord::not_judged, {}, {}, Ratio(), {}, {}, {}, {}, {}}; }

TEST(JudgedBy, TheGroupOfItsPartSays) {
  const std::vector<GroupEstimate> groups = {group_of("a", EstimateModel::plain), group_of("b", EstimateModel::shape)};
  EXPECT_EQ(judged_by(groups, verdict_on("a")).model, EstimateModel::plain);
  EXPECT_EQ(judged_by(groups, verdict_on("b")).model, EstimateModel::shape);
  EXPECT_EQ(judged_by(groups, verdict_on("b")).why.key, "why.shape_model_alone");
}

/// A formula has no chance from the model: its doubt alone decides, and that is said.
TEST(JudgedBy, AVerdictWithoutAChanceInAModelledGroupIsPlain) {
  GroupEstimate group = group_of("b", EstimateModel::shape);
  group.shape = std::make_shared<const ShapeGroup>(ShapeGroup{{"b"}, {84.0, 1.0}, {WearPattern::even, {}, {}, {}, false, 0.0, {}, SizeHistory::stated},
                                                              {}, {}, {}, {}, {}, {}, 1.0, 0.0, {}, {}});
  Verdict verdict = verdict_on("b");
  EXPECT_EQ(judged_by({group}, verdict).model, EstimateModel::shape);  // nothing was weighed
  verdict.doubt = Doubt{};
  EXPECT_EQ(judged_by({group}, verdict).model, EstimateModel::plain);
  EXPECT_EQ(judged_by({group}, verdict).why, (Message{"why.plainly", {word("reason", "plainly.formula")}}));
  verdict.chance = Chance{};
  EXPECT_EQ(judged_by({group}, verdict).model, EstimateModel::shape);
}

}  // namespace
}  // namespace fettle
