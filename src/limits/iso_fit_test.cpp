#include "limits/iso_fit.h"

#include <gtest/gtest.h>

#include <fstream>
#include <sstream>

#include "catalogue/figure.h"

namespace fettle {
namespace {

Length mm(const std::string& text) { return exact_length(read_figure_with_unit(text + " mm").value()).value(); }
Length um(const std::string& text) { return exact_length(read_figure_with_unit(text + " µm").value()).value(); }

IsoFit fit(const std::string& code, const std::string& nominal) { return read_iso_fit(code, mm(nominal), {}).value(); }

/// "[-29, -10]" in micrometres.
std::string zone(const std::string& code, const std::string& nominal) {
  const IsoFit found = fit(code, nominal);
  const IsoClass& one = found.hole ? *found.hole : *found.shaft;
  return "[" + in_unit(one.lower.ratio(), UnitId::micrometre, 1) + ", " + in_unit(one.upper.ratio(), UnitId::micrometre, 1) + "]";
}

std::vector<std::string> codes(const std::string& code, const std::string& nominal) {
  std::vector<std::string> out;
  const auto read = read_iso_fit(code, mm(nominal), {});
  if (read.ok()) return out;
  for (const Problem& each : read.problems()) out.push_back(each.code);
  return out;
}

using Codes = std::vector<std::string>;

// tests/outside/fits/iso286.txt says where its figures come from.
TEST(IsoFit, GivesThePublishedDeviations) {
  std::ifstream file(FETTLE_SOURCE_DIR "/tests/outside/fits/iso286.txt");
  int checked = 0;
  for (std::string line; std::getline(file, line);) {
    if (line.empty() || line.front() == '#') continue;
    std::istringstream words(line);
    std::string code, nominal, lower, upper;
    ASSERT_TRUE(words >> code >> nominal >> lower >> upper) << line;
    const auto unsigned_text = [](const std::string& text) { return text.front() == '+' ? text.substr(1) : text; };
    const IsoFit found = fit(code, nominal);
    const IsoClass& one = found.hole ? *found.hole : *found.shaft;
    EXPECT_EQ(one.lower, um(unsigned_text(lower))) << line;
    EXPECT_EQ(one.upper, um(unsigned_text(upper))) << line;
    ++checked;
  }
  EXPECT_GE(checked, 60);
}

// W-72 (grade A) and the table of published tolerances beside it: 80-120 mm IT6, IT7, IT8 22, 35, 54; 18-30: 13, 21, 33; 30-50: 16, 25, 39;
// 50-80: 19, 30, 46; 120-180: 25, 40, 63. H7 is 0/+IT7, h6 0/-IT6.
TEST(IsoFit, GivesTheTradesTable) {
  const std::vector<std::vector<std::string>> table = {
      {"30", "13", "21", "33"}, {"50", "16", "25", "39"}, {"80", "19", "30", "46"}, {"120", "22", "35", "54"}, {"180", "25", "40", "63"}};
  for (const auto& row : table) {
    EXPECT_EQ(zone("h6", row[0]), "[-" + row[1] + ".0, 0.0]");
    EXPECT_EQ(zone("H7", row[0]), "[0.0, " + row[2] + ".0]");
    EXPECT_EQ(zone("H8", row[0]), "[0.0, " + row[3] + ".0]");
  }
}

TEST(IsoFit, TheStepReachesItsEnd) {
  EXPECT_EQ(zone("H7", "80"), "[0.0, 30.0]");
  EXPECT_EQ(zone("H7", "80.0000001"), "[0.0, 35.0]");
  EXPECT_EQ(zone("s6", "65"), "[53.0, 72.0]");
  EXPECT_EQ(zone("s6", "65.001"), "[59.0, 78.0]");
  EXPECT_EQ(zone("H7", "500"), "[0.0, 63.0]");
}

// ISO 286-1: a hole K to N up to IT8, P to ZC up to IT7, with the shaft of one grade finer, gives the same fit as H with that shaft's letter.
TEST(IsoFit, DeltaMakesTheSameFit) {
  const std::vector<std::pair<std::string, std::string>> pairs = {{"K7", "k6"}, {"M8", "m7"}, {"N7", "n6"}, {"P7", "p6"}, {"S6", "s5"}, {"ZC7", "zc6"}};
  for (const char* nominal : {"5", "30", "80", "120", "200", "400"}) {
    for (const auto& [hole, shaft] : pairs) {
      const std::string grade = shaft.substr(shaft.size() - 1);
      const auto by_hole = play_of(fit(hole + "/h" + grade, nominal)).value();
      const auto by_shaft = play_of(fit("H" + hole.substr(hole.size() - 1) + "/" + shaft, nominal)).value();
      EXPECT_EQ(by_hole.least, by_shaft.least) << nominal << " " << hole;
      EXPECT_EQ(by_hole.most, by_shaft.most) << nominal << " " << hole;
    }
  }
}

TEST(IsoFit, CellsThatTheStandardGivesApart) {
  EXPECT_EQ(zone("M6", "300"), "[-41.0, -9.0]");
  EXPECT_EQ(zone("M6", "250"), "[-37.0, -8.0]");
  EXPECT_EQ(zone("M6", "316"), "[-46.0, -10.0]");
  EXPECT_EQ(zone("N9", "100"), "[-87.0, 0.0]");
  EXPECT_EQ(zone("N9", "3"), "[-29.0, -4.0]");
  EXPECT_EQ(zone("P8", "100"), "[-91.0, -37.0]");
  EXPECT_EQ(zone("k8", "100"), "[0.0, 54.0]");
  EXPECT_EQ(zone("k3", "100"), "[0.0, 6.0]");
  EXPECT_EQ(zone("K9", "3"), "[-25.0, 0.0]");
}

TEST(IsoFit, HalfGrainsStayExact) {
  const IsoFit found = fit("JS7", "30");
  EXPECT_EQ(found.hole->upper.counts(), 105'000);
  EXPECT_EQ(found.hole->lower.counts(), -105'000);
  EXPECT_EQ(fit("js01", "2").shaft->upper.counts(), 1'500);  // 0.15 µm
}

TEST(IsoFit, TellsTheSortsOfFitApart) {
  const auto clearance = play_of(fit("H7/g6", "80")).value();
  EXPECT_EQ(clearance.least, um("10"));
  EXPECT_EQ(clearance.most, um("59"));
  EXPECT_EQ(clearance.sort, FitSort::clearance);
  EXPECT_EQ(play_of(fit("H7/h6", "80"))->sort, FitSort::clearance);  // at the least nothing
  const auto transition = play_of(fit("H7/k6", "80")).value();
  EXPECT_EQ(transition.least, um("-21"));
  EXPECT_EQ(transition.most, um("28"));
  EXPECT_EQ(transition.sort, FitSort::transition);
  const auto interference = play_of(fit("H7/s6", "80")).value();
  EXPECT_EQ(interference.least, um("-78"));
  EXPECT_EQ(interference.most, um("-29"));
  EXPECT_EQ(interference.sort, FitSort::interference);
  EXPECT_FALSE(play_of(fit("H7", "80")));
}

TEST(IsoFit, BlanksBesideTheStrokeAndTheOrderCountForNothing) {
  const IsoFit found = fit(" g6 / H7 ", "80");
  EXPECT_EQ(found.hole, fit("H7", "80").hole);
  EXPECT_EQ(found.shaft, fit("g6", "80").shaft);
}

TEST(IsoFit, SaysWhatIsWrongWithTheCode) {
  EXPECT_EQ(codes("", "80"), (Codes{"limits.fit_empty"}));
  EXPECT_EQ(codes("  ", "80"), (Codes{"limits.fit_empty"}));
  EXPECT_EQ(codes("H7/", "80"), (Codes{"limits.fit_empty"}));
  EXPECT_EQ(codes("H 7", "80"), (Codes{"limits.fit_blank"}));
  EXPECT_EQ(codes("7H", "80"), (Codes{"limits.fit_unreadable"}));
  EXPECT_EQ(codes("H", "80"), (Codes{"limits.fit_unreadable"}));
  EXPECT_EQ(codes("H7/g6/f7", "80"), (Codes{"limits.fit_unreadable"}));
  EXPECT_EQ(codes("H7+", "80"), (Codes{"limits.fit_unreadable"}));
  EXPECT_EQ(codes("Js7", "80"), (Codes{"limits.fit_mixed_case"}));
  EXPECT_EQ(codes("I7", "80"), (Codes{"limits.fit_letter"}));
  EXPECT_EQ(codes("H19", "80"), (Codes{"limits.fit_grade"}));
  EXPECT_EQ(codes("W99/g6", "80"), (Codes{"limits.fit_letter", "limits.fit_grade"}));
  EXPECT_EQ(codes("H7/H7", "80"), (Codes{"limits.fit_same_side"}));
  EXPECT_EQ(codes("g6/h6", "80"), (Codes{"limits.fit_same_side"}));
}

TEST(IsoFit, NotEveryGradeHasEveryLetter) {
  for (const char* code : {"j9", "j4", "j8", "J9", "J5", "K9", "K2", "M2", "P01"}) {
    EXPECT_EQ(codes(code, "80"), (Codes{"limits.fit_not_this_grade"})) << code;
  }
  EXPECT_TRUE(codes("j8", "3").empty());
  EXPECT_TRUE(codes("M2", "3").empty());
}

TEST(IsoFit, NotEverySizeHasEveryLetter) {
  const std::vector<std::pair<std::string, std::string>> absent = {{"cd7", "12"}, {"t6", "24"}, {"V7", "14"}, {"y6", "18"}, {"A11", "1"}, {"b9", "0.5"}};
  for (const auto& [code, size] : absent) {
    EXPECT_EQ(codes(code, size), (Codes{"limits.fit_not_this_size"})) << code;
  }
  EXPECT_EQ(codes("H14", "1"), (Codes{"limits.fit_grade_not_this_size"}));
  EXPECT_EQ(codes("N9", "1"), (Codes{"limits.fit_grade_not_this_size"}));
  EXPECT_TRUE(codes("N9", "1.1").empty());
  EXPECT_EQ(codes("h13", "0.1"), (Codes{"limits.fit_no_size_left"}));
}

std::string capitals(std::string text) {
  for (char& each : text) each = static_cast<char>(each - 'a' + 'A');
  return text;
}

/// Over every letter, grade and step: what is given has the width of its grade, stands where the letter says, and mirrors from a to h.
TEST(IsoFit, EveryCodeIsAnsweredOrRefused) {
  int given = 0;
  for (const std::string& letters : iso_letters()) {
    for (int number = -1; number <= 18; ++number) {
      for (const char* nominal : {"0.7", "2", "5", "9", "13", "17", "20", "28", "45", "60", "110", "170", "290", "333.3333333", "500"}) {
        const std::string grade = grade_text({number});
        const auto hole = read_iso_fit(capitals(letters) + grade, mm(nominal), {});
        const auto shaft = read_iso_fit(letters + grade, mm(nominal), {});
        for (const auto* each : {&hole, &shaft}) {
          if (!each->ok()) continue;
          ++given;
          const IsoClass& one = each == &hole ? *each->value().hole : *each->value().shaft;
          EXPECT_EQ(one.upper - one.lower, standard_tolerance({number}, mm(nominal))) << one.code << " " << nominal;
        }
        if (iso_letter(letters)->side != IsoSide::below || !hole.ok() || !shaft.ok()) continue;
        EXPECT_EQ(hole.value().hole->lower, -shaft.value().shaft->upper) << letters << grade << " " << nominal;
      }
    }
  }
  EXPECT_GT(given, 10'000);
}

/// Bytes that no keyboard has, and everything of up to three characters out of a few: a value or a problem, never an end.
TEST(IsoFit, AnyTextIsAnsweredOrRefused) {
  const std::string few = std::string("Hjs0178/ \t\xC3") + std::string(1, 0);
  for (const char a : few) {
    for (const char b : few) {
      for (const char c : few) {
        const auto read = read_iso_fit(std::string{a, b, c}, mm("80"), {});
        if (read.ok()) {
          EXPECT_TRUE(read.value().hole || read.value().shaft);
        }
      }
    }
  }
}

TEST(IsoFit, TheNominalSizeIsInTheTables) {
  EXPECT_EQ(codes("H7", "0"), (Codes{"limits.fit_nominal_not_positive"}));
  EXPECT_EQ(codes("H7", "-80"), (Codes{"limits.fit_nominal_not_positive"}));
  EXPECT_EQ(codes("H7", "500.0000001"), (Codes{"limits.fit_nominal_too_large"}));
  // What is wrong with the writing is said as well.
  EXPECT_EQ(codes("cd7/Q7", "600"), (Codes{"limits.fit_nominal_too_large", "limits.fit_letter"}));
}

}  // namespace
}  // namespace fettle
