#include "gauging/needle.h"

#include <gtest/gtest.h>

#include "base/assertion.h"

namespace fettle {
namespace {

constexpr Length kHundredth = Length::counts(100'000);  // 0.01 mm
constexpr Length kMillimetre = Length::counts(10'000'000);

Ratio hundredths(std::int64_t count) { return Ratio(count) * kHundredth.ratio(); }

TEST(Needle, SenseFromTheContact) {
  // Pressing the contact in is what a smaller hole or a larger shaft does.
  EXPECT_EQ(size_per_clockwise(Feature::inside, NeedleSide::clockwise), -1);
  EXPECT_EQ(size_per_clockwise(Feature::inside, NeedleSide::anticlockwise), 1);
  EXPECT_EQ(size_per_clockwise(Feature::outside, NeedleSide::clockwise), 1);
  EXPECT_EQ(size_per_clockwise(Feature::outside, NeedleSide::anticlockwise), -1);
}

TEST(Needle, AtZeroThereIsNoSide) {
  const NeedlePlace place = needle_place(Ratio(), kHundredth, kMillimetre, -1);
  EXPECT_EQ(place.turns, 0);
  EXPECT_EQ(place.divisions, Ratio());
  EXPECT_FALSE(place.side.has_value());
}

TEST(Needle, TurnsAreCountedOff) {
  // 2.37 mm: two turns and 37 divisions; a smaller hole drives the needle clockwise.
  const NeedlePlace place = needle_place(hundredths(-237), kHundredth, kMillimetre, -1);
  EXPECT_EQ(place.turns, 2);
  EXPECT_EQ(place.divisions, Ratio(37));
  EXPECT_EQ(place.side, NeedleSide::clockwise);
}

TEST(Needle, AWholeTurnStandsAtZeroButKeepsItsSide) {
  const NeedlePlace place = needle_place(hundredths(100), kHundredth, kMillimetre, 1);
  EXPECT_EQ(place.turns, 1);
  EXPECT_EQ(place.divisions, Ratio());
  EXPECT_EQ(place.side, NeedleSide::clockwise);
}

TEST(Needle, WithoutATurnAllAreDivisions) {
  const NeedlePlace place = needle_place(hundredths(103), kHundredth, std::nullopt, -1);
  EXPECT_EQ(place.turns, 0);
  EXPECT_EQ(place.divisions, Ratio(103));
  EXPECT_EQ(place.side, NeedleSide::anticlockwise);
}

TEST(Needle, BetweenTwoMarksStaysExact) {
  // 0.015 mm on a dial of .01 mm: one and a half divisions.
  EXPECT_EQ(needle_place(Ratio(150'000), kHundredth, kMillimetre, 1).divisions, Ratio::of(3, 2));
}

TEST(Needle, ADialWithoutDivisionsIsRefused) {
  EXPECT_THROW((void)needle_place(Ratio(1), Length(), std::nullopt, 1), InternalError);
}

}  // namespace
}  // namespace fettle
