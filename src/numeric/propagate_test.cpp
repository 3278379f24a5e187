#include "numeric/propagate.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "numeric/student_t.h"

namespace fettle {
namespace {

constexpr std::array<ShapedSource, 3> kSources{{{1.0, DrawShape::normal, 2.0, std::nullopt},
                                                {-3.0, DrawShape::rectangular, 1.0, std::nullopt},
                                                {0.5, DrawShape::triangular, 4.0, std::nullopt}}};

TEST(Propagate, SameInputGivesTheSameBits) {
  const PropagationOptions options{.trials = 25'000, .seed = 4, .probability = 0.95};
  const Propagation one = propagate(kSources, options).value();
  const Propagation other = propagate(kSources, options).value();
  EXPECT_EQ(one.mean, other.mean);
  EXPECT_EQ(one.standard_deviation, other.standard_deviation);
  EXPECT_EQ(one.shortest.low, other.shortest.low);
  EXPECT_NE(one.mean, propagate(kSources, {.trials = 25'000, .seed = 5, .probability = 0.95}).value().mean);
}

// Blocks drawn in any order by any hand are the trials of the whole: least and greatest of all show it, without their
// sum.
TEST(Propagate, BlocksDoNotDependOnTheirOrder) {
  const auto third = propagate_block(kSources, 4, 2, 5'000);
  const auto first = propagate_block(kSources, 4, 0, kTrialsInBlock);
  const auto second = propagate_block(kSources, 4, 1, kTrialsInBlock);
  std::vector<double> all(third);
  all.insert(all.end(), first.begin(), first.end());
  all.insert(all.end(), second.begin(), second.end());
  std::sort(all.begin(), all.end());
  const Propagation whole = propagate(kSources, {.trials = 25'000, .seed = 4, .probability = 0.95}).value();
  // jcgm101 7.7.2 by hand: q = 23750, r = 625 counted from 1.
  EXPECT_EQ(whole.symmetric.low, all[624]);
  EXPECT_EQ(whole.symmetric.high, all[24374]);
}

TEST(Propagate, ShortestIsNotLongerThanSymmetric) {
  const Propagation whole = propagate(kSources, {.trials = 25'000, .seed = 4, .probability = 0.9}).value();
  EXPECT_LE(whole.shortest.high - whole.shortest.low, whole.symmetric.high - whole.symmetric.low);
  // 4 + 9 + 4 = 17; the standard error of the spread is 0.45 %, four of them.
  EXPECT_NEAR(whole.standard_deviation, std::sqrt(17.0), 0.02 * std::sqrt(17.0));
}

// One source known from five repeats: the interval is Student's. Standard error of an end at 1e6 trials: 0.007; three
// of them.
TEST(Propagate, FewDegreesOfFreedomGiveStudentsInterval) {
  const std::array<ShapedSource, 1> source{{{2.0, DrawShape::normal, 0.5, 4.0}}};
  const Propagation whole = propagate(source, {.trials = 1'000'000, .seed = 6, .probability = 0.95}).value();
  EXPECT_NEAR(whole.symmetric.high, student_t_coverage_factor(0.95, 4.0), 0.02);
  EXPECT_NEAR(whole.symmetric.low, -student_t_coverage_factor(0.95, 4.0), 0.02);
}

TEST(Propagate, ReportsEveryOptionOutOfRange) {
  const auto both = propagate(kSources, {.trials = 5, .seed = 1, .probability = 1.5});
  ASSERT_FALSE(both.ok());
  ASSERT_EQ(both.problems().size(), 2U);
  EXPECT_EQ(both.problems()[0].code, "numeric.probability_out_of_range");
  EXPECT_EQ(both.problems()[1].code, "numeric.trials_out_of_range");
  const auto few = propagate(kSources, {.trials = 399, .seed = 1, .probability = 0.95});
  ASSERT_FALSE(few.ok());
  EXPECT_EQ(few.problems()[0].arguments[1], count("least", 400));
  EXPECT_TRUE(propagate(kSources, {.trials = 400, .seed = 1, .probability = 0.95}).ok());
  EXPECT_FALSE(propagate(kSources, {.trials = 10'000'001, .seed = 1, .probability = 0.95}).ok());
  EXPECT_FALSE(propagate(kSources, {.trials = 400, .seed = 1, .probability = std::nan("")}).ok());
}

class StopAfterTwo : public Progress {
 public:
  bool tell(long, long) override { return ++told_ < 2; }

 private:
  int told_ = 0;
};

TEST(Propagate, CancelledRunIsNotUsable) {
  StopAfterTwo stop;
  const Propagation part = propagate(kSources, {.trials = 50'000, .seed = 1, .probability = 0.95}, &stop).value();
  EXPECT_EQ(part.end, PropagationEnd::cancelled);
  EXPECT_FALSE(part.usable);
  EXPECT_EQ(part.trials, 20'000U);
}

}  // namespace
}  // namespace fettle
