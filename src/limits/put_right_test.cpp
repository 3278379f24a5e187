#include "limits/put_right.h"

#include <gtest/gtest.h>

#include "limits/sheet_draft.h"

namespace fettle {
namespace {

/// A page in millimetres, row by row: what, a figure for wear, how it follows.
SheetDraft draft(const std::vector<std::pair<std::string, std::string>>& rows) {
  SheetDraft out{"Invented", "", "3", {}, PageUnit::millimetre, {}, {}};
  for (const auto& [id, text] : rows) out.rows.push_back({id, {{SheetColumn::id, id}, {SheetColumn::what, id}, {SheetColumn::fresh, text}}});
  return out;
}

std::vector<ProofFinding> proof(const SheetDraft& of) { return proof_read(read_sheet_draft(of, catalogue()).sheet, catalogue()); }

TEST(PutRight, TheOtherUnitStaysAsItIsPrinted) {
  const SheetDraft of = draft({{"play", "0.0889 mm (.0025 in)"}});
  const auto findings = proof(of);
  ASSERT_EQ(findings.size(), 1U);
  const LimitSheet sheet = read_sheet_draft(of, catalogue()).sheet;
  EXPECT_EQ(put_right_text(sheet.rows[0].fresh.from, "0.0635 mm"), "0.0635 mm (0.0025 in)");
  EXPECT_EQ(put_right_text(sheet.rows[0].fresh.from, "0.20 mm = 0.008 in"), "0.20 mm (0.008 in)");
  EXPECT_EQ(put_right_text(sheet.rows[0].fresh.from, "about a millimetre"), "");
}

TEST(PutRight, ARatioIsPutRightAsOne) {
  const LimitSheet sheet = read_sheet_draft(draft({{"ratio", "9.014 : 1"}}), catalogue()).sheet;
  EXPECT_EQ(put_right_text(sheet.rows[0].fresh.from, "9.041"), "9.041 : 1");
}

/// The example of the trade: hole 48.016, shell 1.486, journal 44.984; the books printed 0.080 where 0.060 was meant.
TEST(PutRight, WhatIsLikeliestEndsTheFindingWhenItIsTaken) {
  SheetDraft of = draft({{"hole", "48.016"}, {"shell", "1.486"}, {"journal", "44.984"}, {"clearance", "0.080"}});
  of.rows[3].cells.emplace_back(SheetColumn::from, "hole - 2 x shell - journal");
  const auto findings = proof(of);
  ASSERT_EQ(findings.size(), 1U);
  ASSERT_FALSE(findings[0].likeliest.empty());
  const LimitSheet sheet = read_sheet_draft(of, catalogue()).sheet;
  const Likeliest& meant = findings[0].likeliest.front();
  EXPECT_EQ(meant.text, "0.060 mm");  // 48.016 - 2 x 1.486 - 44.984
  of.decisions.push_back({"reckoned", "clearance", "new-from", "0.080 mm", Decided::put_right, put_right_text(figure(*sheet.row(meant.spot.row), meant.spot.field), meant.text), "JB", "2026-01-05"});
  EXPECT_TRUE(proof(of).empty());
  EXPECT_EQ(decisions_that_hold(read_sheet_draft(of, catalogue()).sheet, proof(of)), std::vector<bool>{true});
  of.rows[3].cells[2].second = "0.070";
  EXPECT_EQ(decisions_that_hold(read_sheet_draft(of, catalogue()).sheet, proof(of)), std::vector<bool>{false}) << "another figure is typed now";
}

TEST(PutRight, ADecisionHoldsAsLongAsItAnswersAFinding) {
  SheetDraft of = draft({{"play", "0.0889 mm (.0025 in)"}});
  of.decisions.push_back({"units-disagree", "play", "new-from", "0.0889 mm = 0.0025 in", Decided::ask, "", "JB", "2026-01-05"});
  EXPECT_EQ(decisions_that_hold(read_sheet_draft(of, catalogue()).sheet, proof(of)), std::vector<bool>{true});
  of.rows[0].cells[2].second = "0.0635 mm (.0025 in)";
  EXPECT_EQ(decisions_that_hold(read_sheet_draft(of, catalogue()).sheet, proof(of)), std::vector<bool>{false});
}

}  // namespace
}  // namespace fettle
