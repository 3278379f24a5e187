#include "form/plain_reason.h"

#include <gtest/gtest.h>

#include <set>

#include "form/bench_by_hand.h"
#include "form/shape_group.h"
#include "text/sentence.h"

namespace fettle {
namespace {

using bench_by_hand::Bench;

PartOnBench part_with(const KindWear& wear, Condition condition = Condition::worn) {
  Bench bench;
  bench.add_part("p", "journal", Feature::outside, wear.pattern, condition);
  bench.parts.front().wear = wear;
  return bench.parts.front();
}

TEST(PlainReason, AWornReadPartOfAPatternHasNone) {
  for (const WearPattern pattern : {WearPattern::from_first, WearPattern::both_ends, WearPattern::even}) {
    EXPECT_EQ(plain_reason(part_with({pattern, {}, {}, ""}), 3), "");
  }
}

/// Every reason has a sentence of its own in both languages.
TEST(PlainReason, EveryReasonIsSaidInWords) {
  std::vector<std::string> reasons;
  for (const NotWorn why : {NotWorn::single_place, NotWorn::reckoned, NotWorn::nothing_runs, NotWorn::no_diameter, NotWorn::separate_figures,
                            NotWorn::not_said}) {
    reasons.push_back(plain_reason(part_with({WearPattern::none, why, {}, ""}), 3));
  }
  const KindWear even{WearPattern::even, {}, {}, ""};
  for (const Condition condition : {Condition::machined, Condition::fresh, Condition::sleeved}) {
    reasons.push_back(plain_reason(part_with(even, condition), 3));
  }
  reasons.push_back(plain_reason(part_with(even), 0));
  reasons.push_back(plain_reason(part_with(even), kMostShapeRows + 1));
  EXPECT_EQ(plain_reason(part_with(even), kMostShapeRows), "");
  for (const Language language : {Language::english, Language::german}) {
    std::set<std::string> said;
    for (const std::string& reason : reasons) said.insert(sentence({"why.plainly", {word("reason", reason)}}, language));
    EXPECT_EQ(said.size(), 11U);
  }
}

TEST(PlainReason, ALayoutOfOnePlaceLeavesASingleValue) {
  PartOnBench part = part_with({WearPattern::even, {}, {}, ""});
  part.layout.stations.resize(1);
  part.layout.directions.resize(2);
  EXPECT_EQ(plain_reason(part, 1), "");
  part.layout.directions.resize(1);
  EXPECT_EQ(plain_reason(part, 1), "plainly.single_place");
}

TEST(PlainReason, RowsAreCountedByPlaceAndSetting) {
  Bench bench;
  bench.read("p", 0, 1.0, {});
  bench.read("p", 0, 2.0, {});
  bench.read("p", 1, 2.0, {});
  bench.read("q", 0, 2.0, {});
  bench.set.sizes[1].setting = "set-2";
  const auto rows = rows_read(bench.set);
  EXPECT_EQ(rows.at("p"), 3U);
  EXPECT_EQ(rows.at("q"), 1U);
}

/// Parts of one kind that are judged plainly for different reasons are groups of their own, so that each verdict says its own.
TEST(PlainReason, EachReasonIsAGroupOfItsOwn) {
  Bench bench;
  bench.add_part("worn", "journal", Feature::outside, WearPattern::even);
  bench.add_part("ground", "journal", Feature::outside, WearPattern::even, Condition::machined);
  bench.add_part("unread", "journal", Feature::outside, WearPattern::even);
  bench.add_part("ground-too", "journal", Feature::outside, WearPattern::even, Condition::machined);
  for (const char* id : {"worn", "ground", "ground-too"}) bench.read(id, 0, 3.0, {});
  const auto groups = bench.estimate();
  ASSERT_EQ(groups.size(), 3U);
  EXPECT_EQ(groups[0].why.key, "why.shape_model_alone");
  EXPECT_EQ(groups[0].why.arguments.back(), word("profile", "profile.even"));
  EXPECT_EQ(groups[1].why, (Message{"why.plainly", {word("reason", "plainly.machined")}}));
  ASSERT_EQ(groups[1].parts.size(), 2U);
  EXPECT_EQ(groups[2].why, (Message{"why.plainly", {word("reason", "plainly.not_read")}}));
}

}  // namespace
}  // namespace fettle
