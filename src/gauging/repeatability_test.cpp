#include "gauging/repeatability.h"

#include <gtest/gtest.h>

#include <cmath>

namespace fettle {
namespace {

/// Sizes of one place of "b" under "s", µm above 84 mm, with repeat sd 4 µm and a division of `division_um`.
SizeSet repeats(const std::vector<double>& um, double division_um) {
  SizeSet set;
  for (std::size_t k = 0; k < um.size(); ++k) {
    const std::string id = "r" + std::to_string(k);
    set.sources.push_back({"reading:" + id + ":repeat", "repeat", ErrorScope::reading, ErrorShape::normal, 0.004, {}, "stated"});
    set.sources.push_back({"reading:" + id + ":rounding", "rounding", ErrorScope::reading, ErrorShape::rectangular,
                           division_um / 1000.0 / std::sqrt(12.0), {}, "stated"});
    set.sizes.push_back({id, "b", "s", 0, Ratio(), 84.0 + um[k] / 1000.0, {{2 * k, 1.0}, {2 * k + 1, 1.0}}});
  }
  return set;
}

// By hand: readings 0, 6, 12 have SS = 72 with two degrees; stated 16 counts six times; no rounding: (96 + 72) / 8 = 21.
TEST(Repeatability, IsPooledWithWhatWasStated) {
  SizeSet set = repeats({0.0, 6.0, 12.0}, 0.0);
  const auto learned = learn_repeatability(set, {{{"s", "g"}}, {}});
  ASSERT_EQ(learned.size(), 1U);
  EXPECT_EQ(learned[0].gauge, "g");
  EXPECT_EQ(learned[0].degrees_of_freedom, 2U);
  EXPECT_NEAR(learned[0].learned, std::sqrt(21.0) / 1000.0, 1e-9);
  EXPECT_NEAR(set.sources[0].standard_uncertainty, std::sqrt(21.0) / 1000.0, 1e-9);
  EXPECT_NE(set.sources[0].origin.find("2 repeats"), std::string::npos);
  EXPECT_EQ(set.sources[1].component, "rounding");
  EXPECT_EQ(set.sources[1].standard_uncertainty, 0.0);
}

// A division of 6 µm adds 3 µm² to each reading's scatter: (96 + 72 - 2·3) / 8 = 20.25.
TEST(Repeatability, TakesOffWhatRoundingAdds) {
  SizeSet set = repeats({0.0, 6.0, 12.0}, 6.0);
  EXPECT_NEAR(learn_repeatability(set, {{{"s", "g"}}, {}})[0].learned, 0.0045, 1e-9);
  // All equal on a coarse dial: nothing is left, and the stated figure still counts: √(96 / 8).
  SizeSet equal = repeats({5.0, 5.0, 5.0}, 10.0);
  EXPECT_NEAR(learn_repeatability(equal, {{{"s", "g"}}, {}})[0].learned, std::sqrt(12.0) / 1000.0, 1e-9);
}

// Two people at one place: what lies between them is no repeat of either.
TEST(Repeatability, IsOfOnePersonAndGauge) {
  SizeSet set = repeats({0.0, 6.0, 12.0, 30.0}, 0.0);
  const ReadWith with{{{"s", "g"}}, {{"r0", "Anna"}, {"r1", "Anna"}, {"r2", "Anna"}, {"r3", "Bert"}}};
  const auto learned = learn_repeatability(set, with);
  ASSERT_EQ(learned.size(), 1U);
  EXPECT_EQ(learned[0].person, "Anna");
  EXPECT_NEAR(learned[0].spread, 0.006, 1e-9);
  EXPECT_NEAR(set.sources[0].standard_uncertainty, std::sqrt(21.0) / 1000.0, 1e-9);
  EXPECT_EQ(set.sources[0].degrees_of_freedom, 8.0);
  EXPECT_EQ(set.sources[6].standard_uncertainty, 0.004);
  EXPECT_FALSE(set.sources[6].degrees_of_freedom);
}

// A micrometer's feel and its repeatability are both in what repeats show, and both are scaled.
TEST(Repeatability, TakesInTheFeelOfTheHand) {
  SizeSet set = repeats({0.0, 6.0, 12.0}, 0.0);
  for (std::size_t k = 0; k < 3; ++k) {
    set.sources.push_back({"reading:r" + std::to_string(k) + ":feel", "feel", ErrorScope::reading, ErrorShape::rectangular, 0.003, {}, "stated"});
    set.sizes[k].terms.push_back({set.sources.size() - 1, 1.0});
  }
  const auto learned = learn_repeatability(set, {{{"s", "g"}}, {}});
  ASSERT_EQ(learned.size(), 1U);
  EXPECT_NEAR(learned[0].stated, 0.005, 1e-9);
  EXPECT_NEAR(1e6 * learned[0].learned * learned[0].learned, (6.0 * 25.0 + 72.0) / 8.0, 1e-6);
  const double factor = learned[0].learned / 0.005;
  EXPECT_NEAR(set.sources[0].standard_uncertainty, 0.004 * factor, 1e-9);
  EXPECT_NEAR(set.sources.back().standard_uncertainty, 0.003 * factor, 1e-9);
}

TEST(Repeatability, NothingRepeatedNothingLearned) {
  SizeSet set = repeats({3.0}, 1.0);
  EXPECT_TRUE(learn_repeatability(set, {{{"s", "g"}}, {}}).empty());
  EXPECT_EQ(set.sources[0].standard_uncertainty, 0.004);
}

}  // namespace
}  // namespace fettle
