#include "simulate/reliability.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "base/assertion.h"
#include "numeric/draws.h"
#include "numeric/normal.h"

namespace fettle {
namespace {

struct PublishedInterval {
  std::size_t successes;
  std::size_t trials;
  double low;
  double high;
};

// newcombe1998 table I, method 3, as printed to four decimals.
TEST(Wilson, HasThePublishedValues) {
  for (const PublishedInterval& row :
       {PublishedInterval{81, 263, 0.2553, 0.3662}, PublishedInterval{15, 148, 0.0624, 0.1605},
        PublishedInterval{0, 20, 0.0000, 0.1611}, PublishedInterval{1, 29, 0.0061, 0.1718}}) {
    const ShareInterval interval = wilson_interval(row.successes, row.trials);
    EXPECT_NEAR(interval.low, row.low, 0.00005) << row.successes;
    EXPECT_NEAR(interval.high, row.high, 0.00005) << row.successes;
  }
}

// By definition its ends p solve (k/n - p)^2 = z^2 p (1 - p) / n.
TEST(Wilson, EndsSolveTheScoreEquation) {
  const double z = 1.959963984540054;
  for (const std::size_t trials : {1U, 7U, 40U, 3000U}) {
    for (std::size_t k = 0; k <= trials; k += 1 + trials / 9) {
      const ShareInterval interval = wilson_interval(k, trials);
      const ShareInterval other = wilson_interval(trials - k, trials);
      EXPECT_NEAR(interval.low, 1.0 - other.high, 1e-14);
      const auto n = static_cast<double>(trials);
      for (const double p : {interval.low, interval.high}) {
        const double off = static_cast<double>(k) / n - p;
        EXPECT_NEAR(off * off, z * z * p * (1.0 - p) / n, 1e-14) << k << " of " << trials;
      }
    }
  }
}

// Cover, added up over all counts of 50 trials, averaged over true shares 0.02 to 0.98: brown2001 finds it close to 95
// % on the average, with dips near the ends.
TEST(Wilson, CoversItsShare) {
  constexpr std::size_t kTrials = 50;
  double mean = 0.0;
  for (int i = 2; i <= 98; ++i) {
    const double share = i / 100.0;
    double cover = 0.0;
    double binomial = 1.0;  // of no success
    for (std::size_t k = 0; k < kTrials; ++k) binomial *= 1.0 - share;
    for (std::size_t k = 0; k <= kTrials; ++k) {
      const ShareInterval interval = wilson_interval(k, kTrials);
      if (interval.low <= share && share <= interval.high) cover += binomial;
      binomial *= share / (1.0 - share) * static_cast<double>(kTrials - k) / static_cast<double>(k + 1);
    }
    EXPECT_GT(cover, 0.88) << share;
    mean += cover / 97.0;
  }
  EXPECT_NEAR(mean, 0.95, 0.01);
}

TEST(Wilson, RefusesCountsThatCannotBe) {
  EXPECT_THROW((void)wilson_interval(0, 0), InternalError);
  EXPECT_THROW((void)wilson_interval(3, 2), InternalError);
}

// Bins: {0.02, 0.08} one of two good; {0.10} 0 of 1, an edge belongs to the bin above it; {0.95, 1.0} both good.
// Calibration error: 2/5 |0.05 - 0.5| + 1/5 |0.10 - 0| + 2/5 |0.975 - 1| = 0.18 + 0.02 + 0.01 = 0.21.
// Brier: (0.02^2 + 0.92^2 + 0.10^2 + 0.05^2 + 0) / 5 = (0.0004 + 0.8464 + 0.01 + 0.0025) / 5 = 0.17186.
// Against posteriors 0.03, 0.09, 0.30, 0.90, 1.0: 2/5 |0.05 - 0.06| + 1/5 0.2 + 2/5 |0.975 - 0.95| = 0.054.
// Log loss: -(ln 0.98 + ln 0.08 + ln 0.90 + ln 0.95 + ln 0.9999) / 5
//         = (0.0202027 + 2.5257286 + 0.1053605 + 0.0512933 + 0.0001000) / 5 = 0.5405370.
TEST(Reliability, AgreesWithAHandComputedCase) {
  const std::vector<StatedChance> chances = {
      {0.02, false, 0.03}, {1.0, true, 1.0}, {0.10, false, 0.30}, {0.08, true, 0.09}, {0.95, true, 0.90}};
  const std::optional<Reliability> out = reliability(chances);
  ASSERT_TRUE(out);
  ASSERT_EQ(out->bins.size(), 3U);
  EXPECT_EQ(out->bins[1].from, 0.1);
  EXPECT_EQ(out->bins[1].count, 1U);
  EXPECT_EQ(out->bins[2].to, 1.0);
  EXPECT_EQ(out->bins[2].count, 2U);
  EXPECT_EQ(out->bins[0].share_good, 0.5);
  EXPECT_NEAR(out->bins[0].mean_chance, 0.05, 1e-15);
  EXPECT_NEAR(*out->bins[2].mean_exact, 0.95, 1e-15);
  EXPECT_EQ(out->bins[0].share_interval.low, wilson_interval(1, 2).low);
  EXPECT_NEAR(out->calibration_error, 0.21, 1e-14);
  EXPECT_NEAR(*out->calibration_error_exact, 0.054, 1e-14);
  EXPECT_NEAR(out->brier, 0.17186, 1e-14);
  EXPECT_NEAR(out->log_loss, 0.5405370, 1e-7);
}

TEST(Reliability, NothingKnownIsNotZero) {
  EXPECT_FALSE(reliability({}));
  const std::vector<StatedChance> chances = {{0.5, true, 0.5}, {0.9, true, std::nullopt}};
  EXPECT_FALSE(reliability(chances)->calibration_error_exact);
  EXPECT_TRUE(reliability(chances)->bins[0].mean_exact);
  EXPECT_FALSE(reliability(chances)->bins[1].mean_exact);
}

TEST(Reliability, RefusesWhatIsNoChance) {
  EXPECT_THROW((void)reliability(std::vector<StatedChance>{{1.01, true, std::nullopt}}), InternalError);
  EXPECT_THROW((void)reliability(std::vector<StatedChance>{{std::nan(""), true, std::nullopt}}), InternalError);
  EXPECT_THROW((void)reliability(std::vector<StatedChance>{{0.5, true, 1.01}}), InternalError);
}

TEST(Reliability, CertaintyThatFailsCostsMuchButNotInfinitely) {
  const std::vector<StatedChance> chances = {{1.0, false, std::nullopt}};
  EXPECT_NEAR(reliability(chances)->log_loss, 4.0 * std::log(10.0), 1e-12);
}

// Twelve chances in three bins: the mean of |sum of (p - hit)| over all 2^12 results, weighed by their probability.
TEST(Reliability, LuckAgreesWithEnumeration) {
  const std::vector<double> p = {0.03, 0.05, 0.08, 0.01, 0.41, 0.45, 0.48, 0.42, 0.44, 0.97, 0.93, 0.99};
  std::vector<StatedChance> chances;
  chances.reserve(p.size());
  for (const double chance : p) chances.push_back({chance, true, std::nullopt});
  double expected = 0.0;
  for (unsigned hits = 0; hits < 1U << p.size(); ++hits) {
    double weight = 1.0;
    double low = 0.0;
    double middle = 0.0;
    double high = 0.0;
    for (std::size_t i = 0; i < p.size(); ++i) {
      const bool hit = (hits >> i & 1U) != 0;
      weight *= hit ? p[i] : 1.0 - p[i];
      (p[i] < 0.1 ? low : p[i] < 0.5 ? middle : high) += p[i] - (hit ? 1.0 : 0.0);
    }
    expected += weight * (std::fabs(low) + std::fabs(middle) + std::fabs(high)) / static_cast<double>(p.size());
  }
  const std::optional<Reliability> out = reliability(chances);
  EXPECT_NEAR(out->luck_mean, expected, 4.0 * 0.025 * expected);  // 400 runs whose scatter is about half of the mean
  EXPECT_GT(out->luck_most, out->luck_mean);
}

/// Chances Phi(z) that are exactly right, with z spread by 1.2; then said with `stretch` times too much confidence.
std::vector<StatedChance> said(std::uint64_t stream, std::size_t count, double stretch) {
  Generator generator(11, stream);
  std::vector<StatedChance> out;
  for (std::size_t i = 0; i < count; ++i) {
    const double z = 1.2 * generator.normal();
    const double right = normal_lower(z);
    out.push_back({normal_lower(z * stretch), generator.uniform() < right, right});
  }
  return out;
}

// 95 of 100 honest runs stay below luck_most: of 200 about 10 exceed it, with standard deviation 3.1; and the mean is
// that of luck, to 4 standard errors of 200 runs.
TEST(Reliability, HonestChancesStayWithinTheirLuck) {
  constexpr int kRuns = 200;
  int above = 0;
  double error = 0.0;
  double luck = 0.0;
  for (int run = 0; run < kRuns; ++run) {
    const std::optional<Reliability> out = reliability(said(static_cast<std::uint64_t>(run), 300, 1.0));
    above += out->calibration_error > out->luck_most ? 1 : 0;
    error += out->calibration_error / kRuns;
    luck += out->luck_mean / kRuns;
    EXPECT_NEAR(*out->calibration_error_exact, 0.0, 1e-12);
  }
  EXPECT_GE(above, 1);
  EXPECT_LE(above, 23);
  EXPECT_NEAR(error / luck, 1.0, 0.09);
}

TEST(Reliability, TooMuchAndTooLittleConfidenceAreSeen) {
  const std::optional<Reliability> honest = reliability(said(5, 3000, 1.0));
  for (const double stretch : {0.5, 2.0}) {
    const std::optional<Reliability> wrong = reliability(said(5, 3000, stretch));
    EXPECT_GT(wrong->calibration_error, 2.0 * wrong->luck_most) << stretch;
    EXPECT_NEAR(wrong->calibration_error, *wrong->calibration_error_exact, wrong->luck_most) << stretch;
    EXPECT_GT(wrong->brier, honest->brier) << stretch;
    EXPECT_GT(wrong->log_loss, honest->log_loss) << stretch;
  }
}

TEST(Reliability, OrderOfEnginesDoesNotMatter) {
  std::vector<StatedChance> chances = said(9, 500, 1.4);
  const std::optional<Reliability> one = reliability(chances);
  std::reverse(chances.begin(), chances.end());
  const std::optional<Reliability> other = reliability(chances);
  EXPECT_NEAR(one->calibration_error, other->calibration_error, 1e-13);
  EXPECT_NEAR(one->brier, other->brier, 1e-13);
  EXPECT_NEAR(one->luck_mean, other->luck_mean, 0.1 * one->luck_mean);  // other draws of the same luck
}

}  // namespace
}  // namespace fettle
