#include "base/secret.h"

#include <gtest/gtest.h>

namespace fettle {
namespace {

TEST(Secret, IsAsLongAsAskedAndNeverTheSame) {
  const std::string one = random_secret(32);
  const std::string other = random_secret(32);
  EXPECT_EQ(one.size(), 64U);
  EXPECT_EQ(one.find_first_not_of("0123456789abcdef"), std::string::npos);
  EXPECT_NE(one, other);
  EXPECT_EQ(random_secret(0), "");
}

TEST(Secret, AreTheSameOnlyLetterForLetter) {
  EXPECT_TRUE(same_secret("", ""));
  EXPECT_TRUE(same_secret("abc", "abc"));
  EXPECT_FALSE(same_secret("abc", "abd"));
  EXPECT_FALSE(same_secret("abc", "ab"));
  EXPECT_FALSE(same_secret("abc", ""));
}

}  // namespace
}  // namespace fettle
