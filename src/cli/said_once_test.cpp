#include "cli/said_once.h"

#include <gtest/gtest.h>

#include "base/message.h"

namespace fettle {
namespace {

Verdict verdict_with(const std::string& part, const std::string& limit, Problems reasons) {
  Verdict out{part, limit, VerdictWord::not_judged, std::move(reasons), {}, Ratio(), {}, {}, {}, {}, {}};
  out.remarks = {{"remark.places_missing", {verbatim("places", limit == "taper" ? "top" : "mid")}}};
  return out;
}

TEST(SaidOnce, OneReasonOfManyLimitsStandsOnceWithAllOfThem) {
  const Problem size{"verdict.other_size", {}, {verbatim("level", "248 µm")}};
  const Problem step{"verdict.step_unknown", {}, {}};
  const std::vector<Verdict> verdicts = {verdict_with("a", "size", {size}), verdict_with("b", "size", {size}),
                                         verdict_with("a", "taper", {step, size}), verdict_with("a", "new", {})};
  const auto reasons = reasons_of(verdicts, "a");
  ASSERT_EQ(reasons.size(), 2U);
  EXPECT_EQ(reasons[0].said, size);
  EXPECT_EQ(reasons[0].limits, (std::vector<std::string>{"size", "taper"}));
  EXPECT_EQ(reasons[1].said, step);
  EXPECT_EQ(reasons[1].limits, (std::vector<std::string>{"taper"}));
  // Remarks are alike only with the same arguments.
  const auto remarks = remarks_of(verdicts, "a");
  ASSERT_EQ(remarks.size(), 2U);
  EXPECT_EQ(remarks[0].limits, (std::vector<std::string>{"size", "new"}));
  EXPECT_EQ(remarks[1].limits, (std::vector<std::string>{"taper"}));
}

}  // namespace
}  // namespace fettle
