#include "gauging/thimble.h"

#include <gtest/gtest.h>

#include "base/assertion.h"
#include "catalogue/catalogue.h"

namespace fettle {
namespace {

TypedQuantity typed(const std::string& text) { return read_quantity(text, {{}, {}, DecimalMark::point, {}, false, {}}, {}).value(); }

KnownGauge micrometer(const std::string& preset, const std::string& reads, const std::string& on_standard) {
  Gauge gauge{"mic", preset, {}, {}, {}, {}, {}, {}, {}};
  if (!reads.empty()) gauge.reads = typed(reads);
  if (!reads.empty()) gauge.on_standard = typed(on_standard);
  return know_gauge(gauge, catalogue().gauge_presets, {}).value();
}

Length mm(const std::string& text) { return *exact_length(typed(text + " mm").quantity); }

TEST(Thimble, ANominalInMillimetresOnAnInchMicrometer) {
  // The demo: 84.000 mm = 3.30709 in; 3.307 in = 83.9978 mm, 2.2 µm under; a line is 25.4 µm.
  const auto choice = thimble_choice(micrometer("outside-micrometer-3-4-in", "3.0000 in", "3.0000 in"), mm("84.000"));
  ASSERT_TRUE(choice.has_value());
  EXPECT_EQ(choice->nearest.digits, "3.3070");
  EXPECT_EQ(choice->nearest.unit, UnitId::inch);
  EXPECT_EQ(choice->nearest.really_set, mm("83.9978"));
  EXPECT_EQ(choice->nearest.off, mm("-0.0022"));
  EXPECT_EQ(choice->below.digits, "3.3060");
  EXPECT_EQ(choice->below.off, mm("-0.0276"));
  EXPECT_EQ(choice->above.digits, "3.3080");
  EXPECT_EQ(choice->above.off, mm("0.0232"));
}

TEST(Thimble, ItsOwnZeroErrorIsTakenOff) {
  // Reads .0003 in too much: 84.000 mm = 3.307087 in would show as 3.307387; the line 3.307 is really 3.3067 in = 83.99018 mm.
  const auto choice = thimble_choice(micrometer("outside-micrometer-3-4-in", "3.0003 in", "3.0000 in"), mm("84.000"));
  EXPECT_EQ(choice->nearest.digits, "3.3070");
  EXPECT_EQ(choice->nearest.really_set, mm("83.99018"));
  EXPECT_EQ(choice->nearest.off, mm("-0.00982"));
  // .0005 in too much and more goes over to the next line.
  EXPECT_EQ(thimble_choice(micrometer("outside-micrometer-3-4-in", "3.0005 in", "3.0000 in"), mm("84.000"))->nearest.digits, "3.3080");
}

TEST(Thimble, ItIsShownInItsOwnUnitAndDecimals) {
  // 78.23 mm on a .01 mm thimble: exactly; nothing says that it is read finer.
  const auto choice = thimble_choice(micrometer("outside-micrometer-75-100-mm", "", ""), mm("78.23"));
  EXPECT_EQ(choice->nearest.digits, "78.23");
  EXPECT_EQ(choice->nearest.unit, UnitId::millimetre);
  EXPECT_EQ(choice->nearest.off, Length());
  // A vernier of .0001 in: 78 mm = 3.07087 in; 3.0709 in = 78.00086 mm.
  Gauge vernier{"mic", "outside-micrometer-3-4-in", typed("0.0001 in"), {}, {}, {}, {}, {}, {}};
  const auto fine = thimble_choice(know_gauge(vernier, catalogue().gauge_presets, {}).value(), mm("78.000"));
  EXPECT_EQ(fine->nearest.digits, "3.0709");
  EXPECT_EQ(fine->nearest.off, mm("0.00086"));
}

TEST(Thimble, HalfAwayIsOnEitherSide) {
  const auto choice = thimble_choice(micrometer("outside-micrometer-75-100-mm", "", ""), mm("80.005"));
  EXPECT_EQ(choice->nearest.digits, "80.01");
  EXPECT_EQ(choice->below.off, mm("-0.005"));
}

TEST(Thimble, ARingHasNone) {
  Gauge ring{"ring", "setting-ring", {}, {}, {}, {}, {}, typed("84.003 mm"), {}};
  EXPECT_FALSE(thimble_choice(know_gauge(ring, catalogue().gauge_presets, {}).value(), mm("84")).has_value());
}

}  // namespace
}  // namespace fettle
