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

}  // namespace
}  // namespace fettle
