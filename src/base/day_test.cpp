#include "base/day.h"

#include <gtest/gtest.h>

namespace fettle {
namespace {

TEST(Day, AsPeopleWriteIt) {
  EXPECT_EQ(utc_day("2031-05-04"), "2031-05-04");
  EXPECT_EQ(utc_day("2031-05-04 10:12"), "2031-05-04");
  EXPECT_EQ(utc_day("2031-05-04T08:12:00.000000Z"), "2031-05-04");
  EXPECT_EQ(utc_day("2031-05-04 10:12 +02:00"), "2031-05-04");
}

TEST(Day, TheOffsetCanMoveTheDay) {
  EXPECT_EQ(utc_day("2031-05-04 00:30 +02:00"), "2031-05-03");
  EXPECT_EQ(utc_day("2031-12-31T23:30:00-01:00"), "2032-01-01");
  EXPECT_EQ(utc_day("2032-03-01T00:10+0100"), "2032-02-29");
}

TEST(Day, WhatIsNoDayIsNone) {
  for (const char* text : {"", "yesterday", "4.5.2031", "2031-02-29", "2031-13-01", "2031-5-4", "2031-05-04 25:00", "2031-05-04x", "2031-05-04 10:12 east",
                           "2031-05-04 10:12 +99:00", "-031-05-04"}) {
    EXPECT_EQ(utc_day(text), std::nullopt) << text;
  }
}

TEST(Day, SecondsTellHowLongAgo) {
  EXPECT_EQ(utc_seconds("1970-01-02T00:00:01Z"), 86401);
  EXPECT_EQ(*utc_seconds("2031-05-04T10:12:30+02:00") - *utc_seconds("2031-05-04T08:00:00.000000Z"), 12 * 60 + 30);
  EXPECT_EQ(utc_seconds("2031-05-04"), std::nullopt) << "no time of day";
  EXPECT_EQ(utc_seconds("yesterday"), std::nullopt);
}

TEST(Day, OnlyWithItsOffsetIsATimeOneMoment) {
  EXPECT_EQ(moment_seconds("1970-01-02T00:00:01Z"), 86401);
  EXPECT_EQ(moment_seconds("1970-01-02 02:00 +02:00"), 86400);
  for (const char* text : {"1970-01-02", "1970-01-02T00:00:01", "1970-01-02 00:00 ", "yesterday", ""}) EXPECT_EQ(moment_seconds(text), std::nullopt) << text;
}

}  // namespace
}  // namespace fettle
