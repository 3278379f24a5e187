#include "limits/proof.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <iostream>
#include <set>

#include "limits/proof_desk.h"
#include "limits/proof_on_bench.h"

namespace fettle {
namespace {

namespace fs = std::filesystem;

std::string found_in(const LimitSheet& sheet) {
  std::vector<std::string> all;
  for (const ProofFinding& each : proof_read(sheet, catalogue())) all.push_back(std::string(each.rule) + " @ " + each.spots.front().row);
  std::sort(all.begin(), all.end());
  std::string out;
  for (const std::string& each : all) out += (out.empty() ? "" : ", ") + each;
  return out;
}

std::string expected_of(const std::string& text) {
  const std::string mark = "# expect: ";
  const auto at = text.find(mark);
  if (at == std::string::npos) return "";
  std::string line = text.substr(at + mark.size(), text.find('\n', at) - at - mark.size());
  std::vector<std::string> all;
  std::istringstream parts(line);
  for (std::string each; std::getline(parts, each, ',');) all.push_back(each.substr(each.find_first_not_of(' ')));
  std::sort(all.begin(), all.end());
  std::string out;
  for (const std::string& each : all) out += (out.empty() ? "" : ", ") + each;
  return out;
}

class SheetsOfFolder : public testing::TestWithParam<std::string> {};

TEST_P(SheetsOfFolder, HaveWhatIsExpectedAndNothingElse) {
  std::size_t seen = 0;
  for (const auto& each : fs::directory_iterator(fs::path(FETTLE_SOURCE_DIR) / "tests/sheets" / GetParam())) {
    const std::string text = sheet_text(each.path());
    const LimitSheet read = typed_sheet(text);
    EXPECT_EQ(found_in(read), expected_of(text)) << each.path().filename();
    ++seen;
  }
  EXPECT_GT(seen, 5U);
}

TEST(Proof, EveryRuleHasATrapThatShowsIt) {
  std::set<std::string> shown;
  for (const auto& each : fs::directory_iterator(fs::path(FETTLE_SOURCE_DIR) / "tests/sheets/traps")) {
    for (const ProofFinding& finding : proof_read(typed_sheet(sheet_text(each.path())), catalogue())) shown.emplace(finding.rule);
  }
  const std::vector<std::string_view> rules = proof_rules();
  EXPECT_EQ(shown, std::set<std::string>(rules.begin(), rules.end()));
}

/// The taper of a journal is no size of it, and no second figure for it.
TEST(Proof, WhatARowIsOfTellsThingsApart) {
  EXPECT_EQ(found_in(typed_sheet("id;what;kind;characteristic;new (mm);wear (mm)\n"
                                 "a;Main journal;main-journal;size;54.980-55.000;54.940\n"
                                 "b;Main journal;main-journal;out-of-round;0-0.005;0.020\n"
                                 "c;Main journal;main-journal;taper;0-0.005;0.020\n"
                                 "d;Big-end journal;crankpin;size;44.980-45.000;44.940\n"
                                 "e;Big-end journal;crankpin;taper;0-0.005;0.020\n")),
            "");
  EXPECT_EQ(found_in(typed_sheet("id;what;kind;characteristic;new (mm);wear (mm)\na;Main journal;main-journal;size;54.980-55.000;55.040\n")), "wear-side @ a");
  EXPECT_EQ(found_in(typed_sheet("id;what;kind;characteristic;new (mm);wear (mm)\na;Main journal;main-journal;out-of-round;0.004-0.010;0.002\n")), "wear-side @ a");
}

TEST(Proof, AStageThatIsPutRightIsReadSo) {
  LimitSheet bolts = typed_sheet("id;what;torque;sequence\ncaps;Main caps;30 N·m (22 lbf·ft) then 60 N·m (34 lbf·ft);2-1-3-3\n");
  const auto findings = proof_read(bolts, catalogue());
  ASSERT_EQ(findings.size(), 2U);
  ASSERT_EQ(findings[0].likeliest.size(), 2U);
  EXPECT_EQ(findings[0].likeliest[0].text, "30 N·m (22 lbf·ft) then 60 N·m (44 lbf·ft)");
  EXPECT_EQ(findings[0].likeliest[1].text, "30 N·m (22 lbf·ft) then 46 N·m (34 lbf·ft)");
  bolts.decisions = {{"tightening", "caps", "stages", findings[0].printed, Decided::put_right, findings[0].likeliest[0].text, "JB", "2026-01-05"},
                     {"tightening", "caps", "sequence", findings[1].printed, Decided::put_right, "2-1-3-4", "JB", "2026-01-05"}};
  EXPECT_TRUE(proof_read(bolts, catalogue()).empty());
  EXPECT_EQ(as_decided(bolts).rows.front().sequence, "2-1-3-4");
  EXPECT_EQ(as_decided(bolts).rows.front().stages.at(1).from.inch->quantity.value, Ratio(44));
  bolts.decisions.front().decided = Decided::as_printed;
  ASSERT_EQ(proof_read(bolts, catalogue()).size(), 1U);
  EXPECT_EQ(proof_read(bolts, catalogue()).front().decided->who, "JB");
}

std::string sure(const std::string& text) {
  std::string out;
  for (const ProofFinding& each : proof_read(typed_sheet(text), catalogue())) out += std::string(each.rule) + " " + std::string(how_sure_name(each.sure)) + "\n";
  return out;
}

TEST(Proof, AWearLimitHasTheSideOfWhatIsMeasuredNotOfThePart) {
  EXPECT_EQ(sure("what;kind;new (mm);wear (mm)\nTaper;main-journal;0.000-0.005;0.02\nOut of round;main-journal;0.00-0.005;0.02\nThrust width;main-journal;28.00-28.05;28.04\n"), "wear-side certain\n");
  EXPECT_EQ(sure("what;kind;new (mm);wear (mm)\nSide play;main-journal;0.10-0.25;0.40\n"), "");
  EXPECT_EQ(sure("what;kind;definition;new;wear\nFree length;valve-spring;spring-free;47.6 mm;46.2 mm\nForce;valve-spring;spring-fitted;240-260 N;220 N\n"), "");
  EXPECT_EQ(sure("what;kind;new (mm);wear (mm)\nJournal;main-journal;54.980-55.000;55.060\n"), "wear-side odd\n");
  EXPECT_EQ(sure("what;kind;definition;new (mm);wear (mm)\nJournal;main-journal;size-1;54.980-55.000;55.060\n"), "wear-side certain\n");
}

TEST(Proof, TwoFitsOfOneNameAreTwoThings) {
  EXPECT_EQ(sure("id;what;page;new (mm);from\nh;Hole A;3;20.000-20.021;\ns;Shaft A;3;19.967-19.980;\nc;Clearance;3;0.020-0.054;h - s\nh2;Hole B;9;30.000-30.021;\ns2;Shaft B;9;29.960-29.980;\nc2;Clearance;9;0.020-0.061;h2 - s2\n"), "");
  EXPECT_EQ(sure("what;new (mm)\nHole;20.000-20.021\nHole;30.000-30.021\n"), "two-figures odd\n");
  EXPECT_EQ(sure("what;kind;new (mm)\nBore;cylinder-bore;87.200-87.250\nBore;cylinder-bore;87.000-87.022\n"), "two-figures certain\n");
}

TEST(Proof, ClassesThatAreCountedByTheLastPlaceAreOddAtMost) {
  EXPECT_EQ(sure("what;new (mm);choose\nBore class;86.000-86.009;1\nBore class;86.010-86.019;2\n"), "bands odd\n");
  EXPECT_EQ(sure("what;new (mm);choose\nBore class;86.000-86.009;1\nBore class;86.012-86.019;2\n"), "bands certain\n");
}

TEST(Proof, TheSideOfAFitIsThatOfItsParts) {
  const std::string head = "id;what;new (mm);wear (mm);from\n";
  EXPECT_EQ(sure(head + "h;Guide;8.000-8.015;8.060;\ns;Stem;7.963-7.975;7.930;\nc;Play;0.025-0.052;0.10;h - s\n"), "");
  EXPECT_EQ(sure(head + "h;Guide;8.000-8.015;7.960;\ns;Stem;7.963-7.975;8.010;\nc;Play;0.025-0.052;0.10;h - s\n"), "wear-side odd\nwear-side odd\n");
}

TEST(Proof, SizeClassesMeet) {
  const std::string head = "what;grade;new (mm)\n";
  EXPECT_EQ(sure(head + "Bore;A;86.000-86.010\nBore;B;86.010-86.020\nBore;C;86.020-86.030\n"), "");
  EXPECT_EQ(sure(head + "Bore;A;86.000-86.010\nBore;B;86.010-86.026\nBore;C;86.020-86.030\n"), "bands odd\n");
}

TEST(Proof, ColumnsThatWereExchangedAreToldSo) {
  const auto findings = proof_read(typed_sheet("what;new (mm);new (in)\nGap;0.008-0.014;0.20-0.35\n"), catalogue());
  ASSERT_EQ(findings.size(), 2U);
  EXPECT_EQ(findings[0].arithmetic.key, "proof.units_disagree.exchanged");
  EXPECT_EQ(findings[0].likeliest.front().text, "0.20 mm = 0.008 in");
}

TEST(Proof, ABackwardsRangeIsToldOnceAndNotReckonedWith) {
  EXPECT_EQ(sure("id;what;new (mm);from\nh;Guide;8.015-8.000;\ns;Stem;7.963-7.975;\nc;Play;0.025-0.052;h - s\n"), "range-backwards certain\n");
}

TEST(Proof, LongTablesOfOneNameTakeNoLongerThanOthers) {
  std::string series = "what;step (mm);new (mm)\n";
  std::string bands = "what;new (mm);choose\n";
  for (int i = 0; i < 3000; ++i) {
    const Ratio at = Ratio::of(i, 100);
    series += "Bore;" + at.decimal(2) + ";" + (Ratio(80) + at).decimal(3) + "-" + (Ratio(80) + at + Ratio::of(1, 50)).decimal(3) + "\n";
    bands += "Class;" + (Ratio(80) + at).decimal(3) + "-" + (Ratio(80) + at + Ratio::of(1, 100)).decimal(3) + ";" + std::to_string(i) + "\n";
  }
  EXPECT_EQ(sure(series), "");
  EXPECT_EQ(sure(bands), "");
}

INSTANTIATE_TEST_SUITE_P(Proof, SheetsOfFolder, testing::Values("traps", "right"));

}  // namespace
}  // namespace fettle
