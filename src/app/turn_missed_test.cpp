#include "app/turn_missed.h"

#include <gtest/gtest.h>

#include <string>

#include "app/judge_job.h"
#include "app/open_folder.h"

namespace fettle {
namespace {

/// The demo, as if its master had been set by so much less: the needle's turn is .2 mm.
Job demo_off_by(std::int64_t micrometres) {
  Job job = open_folder(std::string(FETTLE_SOURCE_DIR) + "/examples/curlew-3").value();
  for (Kept<Reading>& kept : job.readings) {
    TypedQuantity& typed = kept.value.quantity;
    const std::string text = (typed.quantity.value - Ratio(micrometres)).decimal(0);  // anticlockwise is a larger bore
    const bool clockwise = !text.starts_with('-');
    typed = read_quantity((clockwise ? text : text.substr(1)) + (clockwise ? " cw" : " acw"),
                          {UnitId::division, Dimension::divisions, DecimalMark::point, std::nullopt, true, std::nullopt}, typed.place).value();
  }
  return job;
}

std::vector<std::string> told(const Job& job) {
  std::vector<std::string> out;
  const JudgedJob judged = judge_job(job, {{}, usual_accuracy()}).value();
  for (const Message& each : judged.notices) {
    if (each.key == "notice.turn_missed") out.push_back(each.key);
  }
  return out;
}

TEST(TurnMissed, ATurnEitherWayIsSaid) {
  for (const std::int64_t off : {200, -200, 196, -203}) EXPECT_EQ(told(demo_off_by(off)).size(), 1U) << off;
}

TEST(TurnMissed, AnOversizeIsNoTurnAndASoundSettingIsLeftAlone) {
  for (const std::int64_t off : {0, 60, 250, -250}) EXPECT_TRUE(told(demo_off_by(off)).empty()) << off;
}

}  // namespace
}  // namespace fettle
