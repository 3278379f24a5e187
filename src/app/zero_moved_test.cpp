#include "app/zero_moved.h"

#include <gtest/gtest.h>

#include "app/linnet_on_bench.h"

namespace fettle {
namespace {

LinnetTold closed_at(const std::string& closing) {
  LinnetTold told{linnet_bores(2)};
  told.closing = closing;
  return told;
}

std::optional<ZeroMoved> moved(const RecordedJob& recorded) { return zero_moved_lately(recorded.job, recorded.job.settings.back()); }

TEST(ZeroMoved, ByMoreThanTwoDivisionsAndNoLess) {
  // The opening zeros are 0, 1 anticlockwise and 0: a third of a division anticlockwise. 2 clockwise is 2⅓ away, 1½ is not.
  EXPECT_FALSE(moved(LinnetOnBench(closed_at("1½ cw")).job()));
  EXPECT_FALSE(moved(LinnetOnBench(closed_at("2 acw")).job()));
  LinnetOnBench bench(closed_at("2 cw"));
  const RecordedJob recorded = bench.job();
  const auto found = moved(recorded);
  ASSERT_TRUE(found);
  EXPECT_EQ(in_unit(found->by, UnitId::micrometre, 2), "-2.33") << "pressed in is clockwise, and a smaller hole";
  EXPECT_FALSE(moved(LinnetOnBench(closed_at("")).job())) << "not looked at again";
}

TEST(ZeroMoved, EveryReadingOfTheSettingHangsOnItAndTheEndsTell) {
  LinnetTold told = closed_at("5 cw");
  told.rows[3].flag = "deposit";
  LinnetOnBench bench(told);
  const RecordedJob recorded = bench.job();
  const auto found = moved(recorded);
  ASSERT_TRUE(found);
  ASSERT_EQ(found->hang.size(), 2U);
  EXPECT_EQ(found->hang[0].first->id, "bore-1");
  EXPECT_EQ(found->hang[0].second, 7U) << "one was left out";
  EXPECT_EQ(found->hang[1].second, 8U);
  ASSERT_EQ(found->again.size(), 2U);
  EXPECT_EQ(found->again[0].part->id, "bore-1");
  EXPECT_EQ(found->again[0].cell, 0U) << "top, thrust";
  EXPECT_EQ(found->again[1].part->id, "bore-2");
  EXPECT_EQ(found->again[1].cell, 1U) << "top, pin";
}

TEST(ZeroMoved, IsAskedAboutUnderTheNextSettingUntilBothEndsAreRead) {
  LinnetTold told = closed_at("5 cw");
  told.afresh = true;
  const auto left = [&] {
    const RecordedJob recorded = LinnetOnBench(told).job();
    const auto found = moved(recorded);
    std::vector<std::string> out;
    for (const TellingPlace& each : found->again) out.push_back(each.part->id);
    return out;
  };
  EXPECT_EQ(left(), (std::vector<std::string>{"bore-1", "bore-2"}));
  told.rows_afresh = {{"bore-1", "top", "thrust", "78 acw"}};
  EXPECT_EQ(left(), (std::vector<std::string>{"bore-2"}));
  told.rows_afresh.push_back({"bore-2", "top", "pin", "60 acw", "JB", {}, "deposit"});
  EXPECT_EQ(left(), (std::vector<std::string>{"bore-2"})) << "left out";
  told.rows_afresh.push_back({"bore-2", "top", "pin", "60 acw"});
  EXPECT_TRUE(left().empty());
}

}  // namespace
}  // namespace fettle
