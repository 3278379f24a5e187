#include "app/reason.h"

#include <gtest/gtest.h>

namespace fettle {
namespace {

TEST(Reason, IsOneLineOfText) {
  EXPECT_TRUE(problems_of_reason("Ziffern vertauscht: 32 statt 23 µm").empty());
  EXPECT_TRUE(problems_of_reason(std::string(kLongestReason, 'x')).empty());
  for (const std::string& text : {std::string(), std::string("   "), std::string("two\nlines"), std::string("\x1b[31mred"), std::string("\xff"),
                                  std::string(kLongestReason + 1, 'x')}) {
    const Problems problems = problems_of_reason(text);
    ASSERT_EQ(problems.size(), 1U);
    EXPECT_EQ(problems.front().code, "record.no_reason");
  }
}

}  // namespace
}  // namespace fettle
