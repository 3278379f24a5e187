#include "wire/verdict_lines.h"

#include <gtest/gtest.h>

namespace fettle {
namespace {

TEST(VerdictLines, ComeBackAsTheyWere) {
  const std::vector<VerdictLine> lines = {{"", "", "too-close", "0.8300", ""}, {"bore \"1\"\n", "größe", "within", "", "840548000/1"}};
  const std::string text = verdict_lines_json(lines);
  EXPECT_EQ(text, "[\"\",\"\",\"too-close\",\"0.8300\",\"\"]\n[\"bore \\\"1\\\"\\n\",\"größe\",\"within\",\"\",\"840548000/1\"]\n");
  EXPECT_EQ(read_verdict_lines(text, {}).value(), lines);
  EXPECT_TRUE(read_verdict_lines("", {}).value().empty());
}

TEST(VerdictLines, WhatIsNoVerdictIsRefused) {
  for (const char* text : {"[\"a\",\"b\",\"c\",\"d\"]\n", "[\"a\",\"b\",\"c\",\"d\",5]\n", "{}\n"}) {
    const auto read = read_verdict_lines(text, {"kept", {}, {}});
    ASSERT_FALSE(read.ok()) << text;
    EXPECT_EQ(read.problems().front().code, "wire.wrong_kind");
    EXPECT_EQ(read.problems().front().place.line, 1);
  }
  EXPECT_EQ(read_verdict_lines("[\"a\"", {}).problems().front().code, "wire.not_json");
}

}  // namespace
}  // namespace fettle
