#include "base/result.h"

#include <gtest/gtest.h>

namespace fettle {
namespace {

TEST(Result, HoldsAValueOrItsProblems) {
  const Result<int> good = 3;
  ASSERT_TRUE(good.ok());
  EXPECT_EQ(good.value(), 3);
  const Result<int> refused = Problem{"x.y", {}, {}};
  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(refused.problems().size(), 1U);
  EXPECT_THROW((void)refused.value(), InternalError);
}

TEST(Result, TakeGathersProblems) {
  Problems problems;
  EXPECT_EQ(take(Result<int>(4), problems), 4);
  EXPECT_EQ(take(Result<int>(Problem{"x.y", {}, {}}), problems), std::nullopt);
  ASSERT_EQ(problems.size(), 1U);
  EXPECT_EQ(problems[0].code, "x.y");
}

TEST(Problems, SortByPlaceThenCode) {
  Problems problems = {{"b", {"f", 2, 1}, {}}, {"a", {"f", 2, 1}, {}}, {"z", {"f", 1, 9}, {}}};
  sort_by_place(problems);
  EXPECT_EQ(problems[0].code, "z");
  EXPECT_EQ(problems[1].code, "a");
}

}  // namespace
}  // namespace fettle
