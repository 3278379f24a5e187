#include "limits/printed_cell.h"

#include <gtest/gtest.h>

#include "limits/proof_desk.h"
#include "text/sentence.h"

namespace fettle {
namespace {

std::string read(const std::string& text, std::vector<UnitId> units = {}, std::optional<DecimalMark> mark = DecimalMark::point) {
  const auto cell = read_printed(text, {std::move(units), mark}, {});
  if (!cell.ok()) return cell.problems().front().code;
  return shown(cell.value().range) + (cell.value().marks.empty() ? "" : " [" + cell.value().marks + "]");
}
constexpr UnitId kMm = UnitId::millimetre;
constexpr UnitId kIn = UnitId::inch;

TEST(PrintedCell, ARangeIsReadInFourWays) {
  for (const char* each : {"1.0-1.2", "1.0…1.2", "1.0 to 1.2", "1.0 bis 1.2", "1.0...1.2", "1.0 – 1.2", "1.1 ±0.1", "1.1 +/- 0.1", "1.1 +-0.1", "1.0—1.2", "1.0..1.2", "1.0 mm - 1.2 mm", "1.0-1.2 mm"})
    EXPECT_EQ(read(each, {kMm}), "1.0…1.2 mm") << each;
}

TEST(PrintedCell, SignsAreNoRange) {
  EXPECT_EQ(read("-.0005", {kIn}), "-0.0005 in");
  EXPECT_EQ(read("-.0005 to -.0001", {kIn}), "-0.0005…-0.0001 in");
  EXPECT_EQ(read("-.0005 - -.0001", {kIn}), "-0.0005…-0.0001 in");
  EXPECT_EQ(read("2-1/32", {kIn}), "2-1/32 in");
  EXPECT_EQ(read_printed("2-1/32", {{kIn}, {}}, {}).value().range.from.inch->quantity.value, Ratio::of(65, 32));
}

TEST(PrintedCell, AFractionIsShownAsOneAndExact) {
  for (const char* each : {"5½ in", "5 ½ in", "5-1/2 in", "5 1/2\"", "5-4/8 in", "5½"}) {
    EXPECT_EQ(read(each, {kIn}), "5-1/2 in") << each;
    EXPECT_EQ(last_place(*read_printed(each, {{kIn}, {}}, {}).value().range.from.inch), Ratio{}) << each;
  }
  EXPECT_EQ(read("15/16", {kIn}), "15/16 in");
  EXPECT_EQ(read("-1/16", {kIn}), "-1/16 in");
  EXPECT_EQ(read("⅞ in"), "7/8 in");
  EXPECT_EQ(read("2 ±1/32 in"), "1-31/32…2-1/32 in");
  EXPECT_EQ(read("5.5", {kIn}), "5.5 in");
}

TEST(PrintedCell, OpenEnds) {
  EXPECT_EQ(read("< .016", {kIn}), "…0.016 in");
  EXPECT_EQ(read("up to 0.5 mm"), "…0.5 mm");
  EXPECT_EQ(read("over 1.2", {kMm}), "1.2… mm");
  EXPECT_EQ(read("max. 84.1", {kMm}), "…84.1 mm");
  EXPECT_EQ(read("0.03 max", {kMm}), "…0.03 mm");
  EXPECT_EQ(read("0.03 mm min."), "0.03… mm");
}

TEST(PrintedCell, TheOtherUnitInBrackets) {
  EXPECT_EQ(read("55.600 mm (2.1890 in)"), "55.600 mm = 2.1890 in");
  EXPECT_EQ(read("55.600 (2.1890)", {kMm, kIn}), "55.600 mm = 2.1890 in");
  EXPECT_EQ(read(".073-.141 in (1.85-3.58 mm)"), "1.85…3.58 mm = 0.073…0.141 in");
  EXPECT_EQ(read("55.600 mm (55.6 mm)"), "limits.cell_two_metric");
  EXPECT_EQ(read("55.600 mm (2.1890 in"), "limits.cell_brackets");
  EXPECT_EQ(read("(2.1890 in)"), "limits.cell_brackets");
}

TEST(PrintedCell, FootnotesAreKeptAside) {
  EXPECT_EQ(read("1.250*", {kMm}), "1.250 mm [*]");
  EXPECT_EQ(read("1.250²", {kMm}), "1.250 mm [²]");
  EXPECT_EQ(read("1.250 1)", {kMm}), "1.250 mm [1)]");
  EXPECT_EQ(read("1.250 a) †", {kMm}), "1.250 mm [a)†]");
  EXPECT_EQ(read("43.731 cm³"), "43.731 cm³");
}

TEST(PrintedCell, WhatIsNotPlainIsRefused) {
  EXPECT_EQ(read("1.0-1.1-1.2", {kMm}), "limits.cell_range");
  EXPECT_EQ(read("1.250 in", {kMm}), "entry.two_units");
  EXPECT_EQ(read("84.1"), "entry.no_unit");
  EXPECT_EQ(read("abc", {kMm}), "entry.not_a_number");
  EXPECT_EQ(read("1.234.567", {kMm}), "entry.thousands");
  EXPECT_EQ(read("1,250", {kMm}, std::nullopt), "limits.cell_ambiguous");
  EXPECT_EQ(read("1,250", {kMm}), "limits.cell_thousands");
  EXPECT_EQ(read("4 tenths"), "limits.cell_trade_word");
}

TEST(PrintedCell, ARefusalSpeaksOfTheTableAndNotOfAJob) {
  for (const char* each : {"", "abc", "1.250 in", "1,250", "1.2.3", "4 tenths", "3 hundredths", "3 mil", "31 cw", "+31 cw", "1/3 mm", "1234567890123456789", "20 m", "1e3", "2-33/32", "1 2", "mm", "1.", "1.2 (1.3", "1-2-3"}) {
    for (const std::optional<DecimalMark> mark : {std::optional(DecimalMark::point), std::optional<DecimalMark>()}) {
      const auto cell = read_printed(each, {{kMm}, mark}, {});
      ASSERT_FALSE(cell.ok()) << each;
      for (const Problem& problem : cell.problems()) {
        for (const Language language : {Language::english, Language::german}) {
          const std::string said = what_and_do(problem, language);
          for (const char* word : {"job.toml", "reading", "you read", "Ablesung", "abgelesen", "Messwert", "station", "Messstelle"}) EXPECT_EQ(said.find(word), std::string::npos) << each << ": " << said;
        }
      }
    }
  }
}

TEST(PrintedCell, ARatioHasNoUnit) { EXPECT_EQ(read("9.014 : 1"), "9.014"); }

}  // namespace
}  // namespace fettle
