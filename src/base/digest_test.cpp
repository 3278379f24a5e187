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

// Expected values: GNU coreutils 9.1, printf abc | b2sum -l 256, and the same of nothing.
TEST(Digest, OfAFileIsWhatOtherProgramsGive) {
  EXPECT_EQ(file_digest("abc"), "bddd813c634239723171ef3fee98579b94964e3bb1cb3e427262c8c068d52319");
  EXPECT_EQ(file_digest(""), "0e5751c026e543b2e8ab2eb06099daa1d1e5df47778f7787faab45cdf12fe3a8");
}

}  // namespace
}  // namespace fettle
