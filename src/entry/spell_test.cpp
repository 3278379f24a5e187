#include "entry/spell.h"

#include <gtest/gtest.h>

namespace fettle {
namespace {

TEST(Spell, FindsWhatWasMeant) {
  const std::vector<std::string> known = {"station", "direction", "reading"};
  EXPECT_EQ(nearest_word("staiton", known), "station");
  EXPECT_EQ(nearest_word("Reading", known), "reading");
  EXPECT_EQ(nearest_word("torque", known), std::nullopt);
  EXPECT_EQ(nearest_word("", known), std::nullopt);
}

TEST(Spell, ShortWordsAreNotGuessed) {
  const std::vector<std::string> units = {"at", "mm", "m", "in"};
  EXPECT_EQ(nearest_word("mn", units), "mm");
  EXPECT_EQ(nearest_word("ft", units), std::nullopt);
  EXPECT_EQ(nearest_word("q", units), std::nullopt);
  EXPECT_EQ(nearest_word("M", units), "m");
}

}  // namespace
}  // namespace fettle
