#include "wire/act_head.h"

#include <gtest/gtest.h>

namespace fettle {
namespace {

std::string told(const ActHead& head) {
  std::string out;
  for (const Problem& each : problems_of_head(head)) out += each.code + " " + std::get<Verbatim>(each.arguments.front().value).text + "; ";
  return out;
}

TEST(ActHead, WhatThePageSendsIsSound) {
  EXPECT_EQ(told({"", "d-3f", 1, "2031-05-04T10:12:05+02:00", "JB"}), "");
  EXPECT_EQ(told({"", "d-3f", 1, "2031-05-04T10:12:05.123Z", "Jürg Å."}), "");
  EXPECT_EQ(told({"", "d-3f", 1, "2031-05-04T10:12:05-09:30", std::string(80, 'x')}), "");
}

TEST(ActHead, EverythingWrongIsToldAtOnce) {
  EXPECT_EQ(told({"", "", 1, "", ""}), "wire.not_a_name device; wire.not_a_name who; wire.not_a_moment made_at; ");
  for (const std::string& who : std::vector<std::string>{" ", std::string(81, 'x'), "J\nB", "JB\x7f", "J\xc2\x85" "B", std::string("J\0B", 3)}) {
    EXPECT_EQ(told({"", "d", 1, "2031-05-04T10:12:05Z", who}), "wire.not_a_name who; ") << who;
  }
  for (const char* made_at : {"yesterday", "2031-05-04", "2031-05-04T10:12:05", "2031-02-30T10:12:05Z", "2031-05-04T10:12:05+02:00 ", "2031-05-04T10:12:05.00000000000000000000000Z"}) {
    EXPECT_EQ(told({"", "d", 1, made_at, "JB"}), "wire.not_a_moment made_at; ") << made_at;
  }
}

}  // namespace
}  // namespace fettle
