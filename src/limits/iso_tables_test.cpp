#include "limits/iso_tables.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <set>
#include <utility>

namespace fettle {
namespace {

constexpr std::array kEnds{3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500};
constexpr std::array kFineEnds{3, 6, 10, 14, 18, 24, 30, 40, 50, 65, 80, 100, 120, 140, 160, 180, 200, 225, 250, 280, 315, 355, 400, 450, 500};

Length mm(int whole) { return Length::counts(whole * Length::kCountsPerMillimetre); }
double micrometres(Length length) { return length.millimetres() * 1000.0; }

/// The geometric mean of the ends of a step, in mm; the first step begins at 1.
double mean_of(const IsoStep& step) {
  const double from = step.over == Length() ? 1.0 : step.over.millimetres();
  return std::sqrt(from * step.up_to.millimetres());
}

double unit_i(double mean_mm) { return 0.45 * std::cbrt(mean_mm) + 0.001 * mean_mm; }

/// The standard's rounding of grades up to IT11: to 1 up to 100, to 5 up to 200, to 10 up to 500.
double grain(double micrometres) { return micrometres <= 100 ? 1 : micrometres <= 200 ? 5 : 10; }

// ISO 286-1, the formula of the standard tolerances: IT5 to IT11 are 7, 10, 16, 25, 40, 64, 100 times i. What the published table rounds
// otherwise is named cell by cell.
TEST(IsoTables, GradesFollowTheFormula) {
  constexpr std::array kTimes{7, 10, 16, 25, 40, 64, 100};
  const std::set<std::pair<int, int>> rounded_otherwise = {{6, 3},  {6, 6},   {6, 400}, {6, 500}, {7, 3},  {7, 10}, {7, 18}, {7, 500},  {9, 3},  {9, 6},
                                                           {10, 3}, {10, 6}, {10, 10}, {10, 18}, {11, 3}, {11, 6}, {11, 50}, {11, 80}, {11, 400}, {11, 500}};
  std::set<std::pair<int, int>> found;
  for (std::size_t i = 0; i < kTimes.size(); ++i) {
    const int grade = 5 + static_cast<int>(i);
    for (int end : kEnds) {
      const double reckoned = kTimes[i] * unit_i(mean_of(iso_step(mm(end))));
      const double table = micrometres(standard_tolerance({grade}, mm(end)));
      if (std::abs(reckoned - table) > grain(reckoned) / 2) found.insert({grade, end});
      EXPECT_GT(table, reckoned - grain(reckoned) / 2) << grade << " " << end;  // rounded otherwise: upwards only
      EXPECT_LT(table, 1.17 * reckoned) << grade << " " << end;
    }
  }
  EXPECT_EQ(found, rounded_otherwise);
}

// ISO 286-1: from IT6 on five grades make ten times the tolerance; one cell is apart.
TEST(IsoTables, FiveGradesMakeTenTimes) {
  for (int grade = 6; grade + 5 <= 18; ++grade) {
    for (int end : kEnds) {
      const auto tenfold = 10 * standard_tolerance({grade}, mm(end)).counts();
      const auto coarse = standard_tolerance({grade + 5}, mm(end)).counts();
      if (grade == 6 && end == 6) {
        EXPECT_EQ(coarse, 750'000);  // 75 µm, not 80
      } else {
        EXPECT_EQ(coarse, tenfold) << grade << " " << end;
      }
    }
  }
}

// ISO 286-1: IT01 0.3 + 0.008 D, IT0 0.5 + 0.012 D, IT1 0.8 + 0.020 D; IT2 to IT4 in geometric steps to IT5. Coarsely rounded.
TEST(IsoTables, FineGradesFollowTheirFormulas) {
  for (int end : kEnds) {
    const double mean = mean_of(iso_step(mm(end)));
    const std::array straight{0.3 + 0.008 * mean, 0.5 + 0.012 * mean, 0.8 + 0.020 * mean};
    for (int grade = -1; grade <= 1; ++grade) {
      const double table = micrometres(standard_tolerance({grade}, mm(end)));
      EXPECT_NEAR(table / straight[static_cast<std::size_t>(grade + 1)], 1.0, 0.29) << grade << " " << end;
    }
    const double first = micrometres(standard_tolerance({1}, mm(end)));
    const double fifth = micrometres(standard_tolerance({5}, mm(end)));
    for (int grade = 2; grade <= 4; ++grade) {
      const double geometric = first * std::pow(fifth / first, (grade - 1) / 4.0);
      EXPECT_NEAR(micrometres(standard_tolerance({grade}, mm(end))) / geometric, 1.0, 0.20) << grade << " " << end;
    }
  }
}

struct LetterFormula {
  const char* letter;
  int from_mm;     ///< below, the standard's table leaves its own formula
  double off;      ///< share of the figure by which the standard's rounding may be off
  double (*formula)(double fine_mean, double main_mean, Length nominal);
};

double grade_um(int grade, Length nominal) { return micrometres(standard_tolerance({grade}, nominal)); }

// ISO 286-1, formulas of the fundamental deviations, D the mean of the fine step in mm (of the main step from d to n). The tables round them
// to 1, 2, 5, 10, 20, 50 as they grow, and are not kept to the formula at small sizes.
TEST(IsoTables, LettersFollowTheirFormulas) {
  const std::array formulas{
      LetterFormula{"a", 0, 0.035, [](double d, double, Length n) { return n <= mm(120) ? 265 + 1.3 * d : 3.5 * d; }},
      LetterFormula{"b", 0, 0.05, [](double d, double, Length n) { return n <= mm(160) ? 140 + 0.85 * d : 1.8 * d; }},
      LetterFormula{"c", 50, 0.03, [](double d, double, Length) { return 95 + 0.8 * d; }},
      LetterFormula{"d", 0, 0.03, [](double, double d, Length) { return 16 * std::pow(d, 0.44); }},
      LetterFormula{"e", 0, 0.03, [](double, double d, Length) { return 11 * std::pow(d, 0.41); }},
      LetterFormula{"f", 6, 0.055, [](double, double d, Length) { return 5.5 * std::pow(d, 0.41); }},
      LetterFormula{"g", 6, 0.09, [](double, double d, Length) { return 2.5 * std::pow(d, 0.34); }},
      LetterFormula{"n", 6, 0.04, [](double, double d, Length) { return 5 * std::pow(d, 0.34); }},
      LetterFormula{"p", 6, 0.09, [](double, double, Length n) { return grade_um(7, n); }},
      LetterFormula{"s", 65, 0.008, [](double d, double, Length n) { return grade_um(7, n) + 0.4 * d; }},
      LetterFormula{"t", 40, 0.026, [](double d, double, Length n) { return grade_um(7, n) + 0.63 * d; }},
      LetterFormula{"u", 24, 0.02, [](double d, double, Length n) { return grade_um(7, n) + d; }},
      LetterFormula{"v", 24, 0.02, [](double d, double, Length n) { return grade_um(7, n) + 1.25 * d; }},
      LetterFormula{"x", 24, 0.02, [](double d, double, Length n) { return grade_um(7, n) + 1.6 * d; }},
      LetterFormula{"y", 24, 0.02, [](double d, double, Length n) { return grade_um(7, n) + 2 * d; }},
      LetterFormula{"z", 18, 0.042, [](double d, double, Length n) { return grade_um(7, n) + 2.5 * d; }},
      LetterFormula{"za", 14, 0.025, [](double d, double, Length n) { return grade_um(8, n) + 3.15 * d; }},
      LetterFormula{"zb", 10, 0.04, [](double d, double, Length n) { return grade_um(9, n) + 4 * d; }},
      LetterFormula{"zc", 10, 0.04, [](double d, double, Length n) { return grade_um(10, n) + 5 * d; }}};
  for (const LetterFormula& each : formulas) {
    for (int end : kFineEnds) {
      if (end < each.from_mm) continue;
      const Length nominal = mm(end);
      const double wanted = each.formula(mean_of(iso_fine_step(nominal)), mean_of(iso_step(nominal)), nominal);
      EXPECT_NEAR(micrometres(letter_deviation(each.letter, nominal)) / wanted, 1.0, each.off) << each.letter << " " << end;
    }
  }
}

// ISO 286-1: m is IT7 - IT6, k is 0.6 times the cube root of D, r the geometric mean of p and s; cd, ef, fg those of their neighbours.
TEST(IsoTables, LettersFollowTheirNeighbours) {
  for (int end : kFineEnds) {
    const Length nominal = mm(end);
    const auto of = [&](const char* letter) { return micrometres(letter_deviation(letter, nominal)); };
    if (end > 3) {
      EXPECT_EQ(of("m"), grade_um(7, nominal) - grade_um(6, nominal)) << end;
      EXPECT_NEAR(of("k"), 0.6 * std::cbrt(mean_of(iso_step(nominal))), 0.51) << end;
    }
    EXPECT_NEAR(of("r"), std::sqrt(of("p") * of("s")), 1.2) << end;
    if (end > 10) continue;
    EXPECT_NEAR(of("cd"), std::sqrt(of("c") * of("d")), 1.0) << end;
    EXPECT_NEAR(of("ef"), std::sqrt(of("e") * of("f")), 1.0) << end;
    EXPECT_NEAR(of("fg"), std::sqrt(of("f") * of("g")), 0.7) << end;
  }
}

// No cell exchanged with its neighbour: every row grows with the size and every column with grade and letter.
TEST(IsoTables, NothingShrinks) {
  for (int grade = -1; grade <= 18; ++grade) {
    for (std::size_t i = 0; i < kEnds.size(); ++i) {
      const Length here = standard_tolerance({grade}, mm(kEnds[i]));
      if (i > 0) {
        EXPECT_LE(standard_tolerance({grade}, mm(kEnds[i - 1])), here) << grade << " " << kEnds[i];
      }
      if (grade > -1) {
        EXPECT_LT(standard_tolerance({grade - 1}, mm(kEnds[i])), here) << grade << " " << kEnds[i];
      }
    }
  }
  const std::array high{"k", "m", "n", "p", "r", "s", "t", "u", "v", "x", "y", "z", "za", "zb", "zc"};
  for (int end : kFineEnds) {
    Length before;
    for (const char* letter : high) {
      const IsoLetter* known = iso_letter(letter);
      if (end <= known->over_mm) continue;
      EXPECT_LE(before, letter_deviation(letter, mm(end))) << letter << " " << end;
      before = letter_deviation(letter, mm(end));
    }
  }
}

TEST(IsoTables, AStepReachesItsEnd) {
  EXPECT_EQ(iso_step(mm(80)), (IsoStep{mm(50), mm(80)}));
  EXPECT_EQ(iso_step(mm(80) + Length::counts(1)), (IsoStep{mm(80), mm(120)}));
  EXPECT_EQ(iso_fine_step(mm(65)), (IsoStep{mm(50), mm(65)}));
  EXPECT_EQ(iso_step(Length::counts(1)), (IsoStep{Length(), mm(3)}));
}

TEST(IsoTables, GradesAreWrittenOneWay) {
  EXPECT_EQ(read_grade("01"), IsoGrade{-1});
  EXPECT_EQ(read_grade("0"), IsoGrade{0});
  EXPECT_EQ(read_grade("18"), IsoGrade{18});
  for (const char* text : {"", "19", "07", "-1", "7.0"}) EXPECT_FALSE(read_grade(text)) << text;
}

}  // namespace
}  // namespace fettle
