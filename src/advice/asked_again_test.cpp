#include "advice/asked_again.h"

#include <gtest/gtest.h>

namespace fettle {
namespace {

/// A bore 78.000 to 78.020, service 78.100, gauge 0.001; read so far (above 78 less 0.0017): 71, 31, 18, foot 12.
PlaceKnown bore() {
  return {Feature::inside, 78.000, 78.020, 78.100, {78.0693, 78.0293, 78.0163, 78.0103}, 78.0103, {}, 0.004, 0.001};
}
PlaceKnown journal() { return {Feature::outside, 51.981, 52.000, 51.950, {}, std::nullopt, {}, 0.002, 0.001}; }
PlaceKnown unknown(Feature feature) { return {feature, {}, {}, {}, {}, {}, {}, 0.004, 0.001}; }

TEST(AskedAgain, ANeedleOnTheOtherSideIsSmallerThanNew) {
  const auto asked = asked_again(77.9703, bore(), {{Slip::needle_side, 78.0263}});
  ASSERT_TRUE(asked);
  EXPECT_EQ(asked->slip, Slip::needle_side);
  EXPECT_EQ(asked->why, OutOfBand::as_new);
  EXPECT_FALSE(asked->toward_wear);
}

TEST(AskedAgain, AnHonestReadingIsNotAsked) {
  for (const double size : {78.0043, 78.0143, 78.0263, 78.0583, 78.11}) EXPECT_FALSE(asked_again(size, bore(), {{Slip::needle_side, 77.97}})) << size;
  EXPECT_FALSE(asked_again(51.972, journal(), {{Slip::thimble_turn, 52.472}, {Slip::thimble_turn, 51.472}}));
}

TEST(AskedAgain, ATurnOfTheThimbleMissedBringsTheJournalBack) {
  const auto asked = asked_again(51.478, journal(), {{Slip::thimble_turn, 51.978}, {Slip::digits_exchanged, 51.749}});
  ASSERT_TRUE(asked);
  EXPECT_EQ(asked->slip, Slip::thimble_turn);
  EXPECT_EQ(asked->why, OutOfBand::worn);
  EXPECT_TRUE(asked->toward_wear);
}

TEST(AskedAgain, WhatNoSlipExplainsIsAskedOnlyFarOutside) {
  const PlaceKnown liner{Feature::inside, 56.000, 56.019, 56.080, {56.055, 56.060, 56.040, 56.035}, std::nullopt, {}, 0.006, 0.003};
  const auto port = asked_again(56.380, liner, {{Slip::needle_side, 55.620}});
  ASSERT_TRUE(port);
  EXPECT_FALSE(port->slip);
  EXPECT_EQ(port->why, OutOfBand::apart);
  EXPECT_FALSE(asked_again(56.15, liner, {})) << "a little outside, and nothing explains it";
}

TEST(AskedAgain, WhereNothingIsKnownNothingIsAsked) {
  EXPECT_FALSE(asked_again(77.0, unknown(Feature::inside), {{Slip::needle_side, 78.0}}));
  PlaceKnown one = unknown(Feature::inside);
  one.same_part = {78.05};
  EXPECT_FALSE(asked_again(78.3, one, {{Slip::dial_turn, 78.1}})) << "one reading is no spread";
  EXPECT_FALSE(asked_again(-0.4, unknown(Feature::figure), {{Slip::needle_side, 0.4}})) << "a gap may be anything";
}

TEST(AskedAgain, WithoutLimitsThePartsOwnReadingsAndItsLikeSpeak) {
  PlaceKnown own = unknown(Feature::inside);
  own.same_part = {78.06, 78.03, 78.02};
  EXPECT_TRUE(asked_again(78.25, own, {{Slip::dial_turn, 78.05}}));
  EXPECT_TRUE(asked_again(77.87, own, {{Slip::dial_turn, 78.07}}));
  PlaceKnown like = unknown(Feature::outside);
  like.like_parts = {51.98, 51.975, 51.97};
  EXPECT_EQ(asked_again(51.478, like, {{Slip::thimble_turn, 51.978}})->why, OutOfBand::apart);
  EXPECT_FALSE(asked_again(51.93, like, {{Slip::thimble_turn, 52.43}}));
}

TEST(AskedAgain, AShaftIsTurnedRound) {
  const auto asked = asked_again(52.45, journal(), {{Slip::thimble_turn, 51.95}});
  ASSERT_TRUE(asked);
  EXPECT_EQ(asked->why, OutOfBand::as_new);
  EXPECT_FALSE(asked->toward_wear);
}

}  // namespace
}  // namespace fettle
