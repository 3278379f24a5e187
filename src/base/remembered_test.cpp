#include "base/remembered.h"

#include <gtest/gtest.h>

namespace fettle {
namespace {

TEST(Remembered, AnEqualInputGivesTheVeryResult) {
  Remembered<int, int> memory;
  const auto twice = [](int each) { return 2 * each; };
  const auto first = memory.of(3, twice);
  EXPECT_EQ(*first, 6);
  EXPECT_EQ(memory.of(3, twice), first);
  EXPECT_EQ(*memory.of(4, twice), 8);
  EXPECT_EQ(memory.made(), 2U);
}

TEST(Remembered, ForgetsWhatARoundDidNotAskFor) {
  Remembered<int, int> memory;
  const auto same = [](int each) { return each; };
  (void)memory.of(1, same);
  (void)memory.of(2, same);
  memory.next_round();
  (void)memory.of(1, same);
  memory.next_round();
  EXPECT_EQ(memory.made(), 2U);
  (void)memory.of(1, same);
  EXPECT_EQ(memory.made(), 2U) << "asked for in the round before";
  (void)memory.of(2, same);
  EXPECT_EQ(memory.made(), 3U) << "not asked for a whole round";
}

}  // namespace
}  // namespace fettle
