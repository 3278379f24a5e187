#include "numeric/summary.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "base/assertion.h"
#include "numeric/compensated_sum.h"

namespace fettle {
namespace {

TEST(Summary, SumsKeepWhatAdditionsRoundOff) {
  CompensatedSum sum;
  double plain = 0.0;
  for (const double value : {1.0, 1e100, 1.0, -1e100}) {
    sum.add(value);
    plain += value;
  }
  EXPECT_EQ(sum.value(), 2.0);
  EXPECT_EQ(plain, 0.0);
}

TEST(Summary, OfAFewValues) {
  const std::vector<double> values = {2.0, 4.0, 4.0, 4.0, 5.0, 5.0, 7.0, 9.0};
  const Summary found = summarize(values);
  EXPECT_EQ(found.count, 8U);
  EXPECT_EQ(found.mean, 5.0);
  EXPECT_DOUBLE_EQ(found.standard_deviation, std::sqrt(32.0 / 7.0));
  const Summary alone = summarize(std::vector<double>{3.5});
  EXPECT_EQ(alone.mean, 3.5);
  EXPECT_EQ(alone.standard_deviation, 0.0);
  EXPECT_FALSE(alone.lag1);
  EXPECT_THROW((void)summarize({}), InternalError);
  EXPECT_THROW((void)summarize(std::vector<double>{1.0, INFINITY}), InternalError);
}

// Any constant that keeps the differences exact changes the mean alone.
TEST(Summary, AConstantChangesNoDeviation) {
  const std::vector<double> values = {0.25, 1.5, -2.75, 3.0, 0.5};
  std::vector<double> moved = values;
  for (double& value : moved) value += 1048576.0;
  EXPECT_EQ(summarize(values).standard_deviation, summarize(moved).standard_deviation);
  EXPECT_EQ(summarize(values).mean + 1048576.0, summarize(moved).mean);
}

TEST(Summary, PoolsByDegreesOfFreedom) {
  PooledSpread pooled;
  EXPECT_THROW((void)pooled.standard_deviation(), InternalError);
  pooled.add(8.0, 2.0);
  pooled.add(10.0, 4.0);
  EXPECT_EQ(pooled.standard_deviation(), std::sqrt(3.0));
}

}  // namespace
}  // namespace fettle
