#include "catalogue/mistakes.h"

#include <gtest/gtest.h>

#include <set>

#include "text/sentence.h"

namespace fettle {
namespace {

TEST(Mistakes, EveryKindHasItsWordsAndItsOrigin) {
  std::set<std::string> seen;
  for (const MistakeKind& each : mistake_kinds()) {
    EXPECT_TRUE(seen.insert(each.id).second) << each.id << " twice";
    EXPECT_FALSE(each.origin.empty()) << each.id;
    EXPECT_GT(each.rate, 0.0) << each.id;
    EXPECT_LT(each.rate, 0.05) << each.id;
    EXPECT_EQ(mistake_kind(each.id), &each);
    const bool by_unit = each.id == "thimble-turn" || each.id == "thimble-line";
    for (const Language language : {Language::english, Language::german}) {
      EXPECT_TRUE(has_key("advice.why." + each.id, language)) << each.id;
      EXPECT_TRUE(has_key("advice.slip." + each.id + (by_unit ? ".mm" : ""), language)) << each.id;
    }
  }
  EXPECT_EQ(mistake_kind("guessed"), nullptr);
}

/// What a dial reading in the middle of a bore without ports may be, and a reading of a micrometer on a journal: near the 2 % that the model of
/// wear takes for mistakes.
TEST(Mistakes, TogetherTheyAreAboutTwoInAHundred) {
  double dial = 0.0;
  double thimble = 0.0;
  for (const MistakeKind& each : mistake_kinds()) {
    if (each.reach != MistakeReach::reading) continue;
    const bool any = each.where == MistakeWhere::any;
    if (any || each.where == MistakeWhere::dial || each.where == MistakeWhere::dial_in_bore) dial += each.rate;
    if (any || each.where == MistakeWhere::thimble || each.where == MistakeWhere::thimble_outside) thimble += each.rate;
  }
  EXPECT_NEAR(dial, 0.02, 0.006);
  EXPECT_NEAR(thimble, 0.02, 0.006);
}

}  // namespace
}  // namespace fettle
