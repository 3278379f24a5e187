#include "base/digest.h"

#include <gtest/gtest.h>

namespace fettle {
namespace {

TEST(Digest, FieldBordersCount) {
  EXPECT_EQ(digest({"ab", "c"}), digest({"ab", "c"}));
  EXPECT_NE(digest({"ab", "c"}), digest({"a", "bc"}));
  EXPECT_NE(digest({"ab", "c"}), digest({"ab", "c", ""}));
  EXPECT_EQ(digest({}).size(), 32U);
}

}  // namespace
}  // namespace fettle
