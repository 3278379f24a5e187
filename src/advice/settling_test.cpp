#include "advice/settling.h"

#include <gtest/gtest.h>

#include <cmath>

#include "numeric/draws.h"
#include "numeric/normal.h"

namespace fettle {
namespace {

// A margin x ~ N(m, 1), kept above nothing, is seen as x + noise: what is known of it afterwards, draw by draw.
struct Seen {
  double settled = 0.0;
  double cost = 0.0;
};

Seen seen(double chance, double explained, double level, const WrongCosts& costs) {
  Generator generator(5, 1);
  const double m = normal_quantile(chance);
  constexpr int kTimes = 200000;
  Seen out;
  for (int i = 0; i < kTimes; ++i) {
    const double x = m + generator.normal();
    const double noise_variance = (1.0 - explained) / explained;
    const double y = x + std::sqrt(noise_variance) * generator.normal();
    const double mean = m + explained * (y - m);
    const double after = normal_lower(mean / std::sqrt(1.0 - explained));
    out.settled += after >= level || after <= 1.0 - level ? 1.0 : 0.0;
    out.cost += std::min(costs.pass * (1.0 - after), costs.fail * after);
  }
  out.settled /= kTimes;
  out.cost /= kTimes;
  return out;
}

TEST(Settling, ForetellsWhatReadingShows) {
  const WrongCosts costs{1500.0, 450.0};
  for (const double chance : {0.12, 0.5, 0.77, 0.93}) {
    for (const double explained : {0.1, 0.5, 0.9}) {
      const Seen there = seen(chance, explained, 0.95, costs);
      EXPECT_NEAR(chance_settled(chance, explained, 0.95), there.settled, 0.005) << chance << " " << explained;
      EXPECT_NEAR(cost_after(chance, explained, costs), there.cost, 1.5) << chance << " " << explained;
    }
  }
}

TEST(Settling, NothingExplainedSettlesNothing) {
  EXPECT_EQ(chance_settled(0.9, 0.0, 0.95), 0.0);
  EXPECT_EQ(chance_settled(0.97, 0.0, 0.95), 1.0);
  EXPECT_NEAR(cost_after(0.6, 0.0, {1500.0, 450.0}), cost_of_deciding(0.6, {1500.0, 450.0}), 1e-6);
  EXPECT_NEAR(chance_settled(0.5, 1.0, 0.95), 1.0, 1e-12);
  EXPECT_NEAR(cost_after(0.5, 1.0, {1500.0, 450.0}), 0.0, 5.0);
}

}  // namespace
}  // namespace fettle
