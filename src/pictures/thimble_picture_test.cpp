#include <gtest/gtest.h>

#include "base/assertion.h"
#include "pictures/thimble.h"

namespace fettle {
namespace {

constexpr ThimbleScale kInch = {UnitId::inch, false};
constexpr ThimbleScale kInchVernier = {UnitId::inch, true};
constexpr ThimbleScale kMetric = {UnitId::millimetre, false};
constexpr ThimbleScale kMetricVernier = {UnitId::millimetre, true};

/// Ten thousandths of an inch, and thousandths of a millimetre.
Length tenths(std::int64_t count) { return Length::counts(count * Length::kCountsPerInch / 10'000); }
Length microns(std::int64_t count) { return Length::counts(count * Length::kCountsPerMillimetre / 1000); }

void expect_lines(const ThimbleLines& lines, std::int64_t turns, std::int64_t line, const Ratio& past, std::optional<int> coincides) {
  EXPECT_EQ(lines.turns, turns);
  EXPECT_EQ(lines.line, line);
  EXPECT_EQ(lines.past, past);
  EXPECT_EQ(lines.coincides, coincides);
}

// Published reading exercises, walked backwards: from the figure to the lines.
TEST(ThimbleLines, W01InchVernier) {
  // W-01 (TM 9-243, NAVEDTRA 14256): sleeve .200 and 3 divisions of .025, thimble .011, vernier 2: .2862 in.
  expect_lines(thimble_lines(tenths(2862), kInchVernier), 8 + 3, 11, Ratio::of(2, 10), 2);
}

TEST(ThimbleLines, W02Metric) {
  // W-02: 20 mm on the sleeve, 2 mm more, thimble .36: 22.36 mm. Its text misprints the pitch 0.05 for 0.5 mm.
  expect_lines(thimble_lines(microns(22'360), kMetric), 44, 36, Ratio(0), std::nullopt);
}

TEST(ThimbleLines, ByHand) {
  expect_lines(thimble_lines(tenths(3070), kInch), 12, 7, Ratio(0), std::nullopt);       // .300 + .007
  expect_lines(thimble_lines(tenths(250), kInch), 1, 0, Ratio(0), std::nullopt);         // one turn
  expect_lines(thimble_lines(tenths(249), kInchVernier), 0, 24, Ratio::of(9, 10), 9);    // .0249
  expect_lines(thimble_lines(tenths(709), kInchVernier), 2, 20, Ratio::of(9, 10), 9);    // .050 + .020 + .0009
  expect_lines(thimble_lines(microns(8'998), kMetricVernier), 17, 49, Ratio::of(8, 10), 8);  // 8.5 + 0.49 + 0.008
  expect_lines(thimble_lines(microns(7'500), kMetric), 15, 0, Ratio(0), std::nullopt);
  expect_lines(thimble_lines(microns(7'123), kMetric), 14, 12, Ratio::of(3, 10), std::nullopt);  // between two lines
  expect_lines(thimble_lines(Length(), kInchVernier), 0, 0, Ratio(0), 0);
  // A hair under the next line: the vernier cannot tell it from that line.
  expect_lines(thimble_lines(Length::counts(tenths(250).counts() - 1), kInchVernier), 1, 0, Ratio(0), 0);
  EXPECT_THROW((void)thimble_lines(Length::counts(-1), kInch), InternalError);
}

TEST(ThimbleLines, TheLinesAddUpToTheReading) {
  for (const ThimbleScale& scale : {kInch, kInchVernier, kMetric, kMetricVernier}) {
    const bool inch = scale.unit == UnitId::inch;
    const std::int64_t step = inch ? tenths(1).counts() : microns(1).counts();
    for (std::int64_t i = 0; i < 30'000; i += 7) {
      const Length shown = Length::counts(i * step);
      const ThimbleLines lines = thimble_lines(shown, scale);
      const Ratio line = Ratio(inch ? tenths(10).counts() : microns(10).counts());
      const Ratio turn = line * Ratio(inch ? 25 : 50);
      EXPECT_EQ(turn * Ratio(lines.turns) + line * (Ratio(lines.line) + lines.past), shown.ratio()) << i;
      if (scale.vernier) {
        EXPECT_EQ(Ratio::of(lines.coincides.value(), 10), lines.past) << i;
      }
    }
  }
}

TEST(ThimbleScale, OnlyForWhatCanBeDrawn) {
  EXPECT_FALSE(thimble_scale(tenths(10), UnitId::inch).value().vernier);
  EXPECT_TRUE(thimble_scale(tenths(1), UnitId::inch).value().vernier);
  EXPECT_FALSE(thimble_scale(microns(10), UnitId::millimetre).value().vernier);
  EXPECT_TRUE(thimble_scale(microns(1), UnitId::millimetre).value().vernier);
  EXPECT_FALSE(thimble_scale(microns(2), UnitId::millimetre));
  EXPECT_FALSE(thimble_scale(microns(10), UnitId::inch));
}

std::string description_of(Length shown, int decimals, const ThimbleScale& scale, std::optional<Length> from, Language language) {
  const ThimblePlace place{shown, in_unit(shown.ratio(), scale.unit, decimals), scale.unit, shown, Length()};
  return thimble_picture(place, scale, from, language).description;
}

TEST(ThimblePicture, SaysTheSameInWords) {
  EXPECT_EQ(description_of(tenths(33'070), 4, kInch, tenths(30'000), Language::english),
            "3.3070 in: 3 where its range begins + 0.300 on the sleeve + 0.007 on the thimble (line 7).");
  EXPECT_EQ(description_of(microns(83'998), 3, kMetricVernier, microns(75'000), Language::german),
            "83,998 mm: 75, wo ihr Messbereich beginnt, + 8,5 auf der Hülse + 0,49 auf der Trommel (Strich 49) + 0,008 auf dem Nonius.");
}

/// The bare sleeve lines are as many as the reading says: no line lies under the thimble's edge.
TEST(ThimblePicture, TheThimbleBaresAsManyLines) {
  for (const std::int64_t reading : {0, 5, 2862, 3070, 9999}) {
    const Length shown = tenths(reading);
    const ThimblePlace place{shown, "", UnitId::inch, shown, Length()};
    const Drawing drawing = thimble_picture(place, kInchVernier, std::nullopt, Language::english);
    double edge = -1.0;
    int bare = 0;
    for (const DrawnMark& mark : drawing.marks) {
      if (const auto* thimble = std::get_if<Polygon>(&mark); thimble != nullptr && edge < 0.0) edge = thimble->points.front().x;
    }
    for (const DrawnMark& mark : drawing.marks) {
      const auto* line = std::get_if<Line>(&mark);
      if (line == nullptr || line->from.x != line->to.x) continue;
      EXPECT_LE(line->from.x, edge) << reading;
      bare += 1;
    }
    EXPECT_EQ(bare, reading / 250 + 1) << reading;
    // The next line would be covered.
    EXPECT_GT(14.0 + 212.0 / 40.0 * (static_cast<double>(reading / 250) + 1.0), edge - 2.0) << reading;
  }
}

}  // namespace
}  // namespace fettle
