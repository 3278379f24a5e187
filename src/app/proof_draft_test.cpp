#include "app/proof_draft.h"

#include <gtest/gtest.h>

namespace fettle {
namespace {

using enum SheetColumn;

/// The book's clearance of a journal: hole, shell, journal, and what they make.
SheetDraft bearing_page() {
  SheetDraft out{"Invented four", "2", "31", {}, PageUnit::millimetre, {}, {}};
  out.rows = {{"a", {{id, "hole"}, {what, "Main housing"}, {fresh, "48.016"}}},
              {"b", {{id, "shell"}, {what, "Main shell"}, {fresh, "1.486"}}},
              {"c", {{id, "journal"}, {what, "Main journal"}, {kind, "main-journal"}, {characteristic, "size"}, {fresh, "44.984"}, {wear, "44.950"}}},
              {"d", {{what, "Main clearance"}, {fresh, "0.080"}, {from, "hole - 2 x shell - journal"}}}};
  return out;
}

TEST(ProofDraft, SaysInRowsOfTheDraftWhatToPutRight) {
  const DraftProof proof = proof_draft(bearing_page(), catalogue());
  ASSERT_EQ(proof.findings.size(), 1U);
  const DraftFinding& finding = proof.findings.front();
  EXPECT_EQ(finding.finding.spots.front().row, "d");
  EXPECT_EQ(finding.whats.front(), "Main clearance");
  ASSERT_FALSE(finding.choices.empty());
  const PutRightChoice& choice = finding.choices.front();
  EXPECT_EQ(choice.spot.row, "d");
  EXPECT_EQ(choice.to, "0.060 mm");  // 48.016 - 2 x 1.486 - 44.984
  EXPECT_EQ(choice.printed, "0.080 mm");
  EXPECT_FALSE(finding.decided);

  SheetDraft taken = bearing_page();
  taken.decisions.push_back({"reckoned", "d", "new-from", choice.printed, Decided::put_right, choice.to, "JB", "2026-01-05"});
  EXPECT_TRUE(proof_draft(taken, catalogue()).findings.empty());
  EXPECT_EQ(proof_draft(taken, catalogue()).hold, std::vector<bool>{true});
}

TEST(ProofDraft, StagesArePutRightWhole) {
  SheetDraft draft{"Invented four", "2", "31", {}, {}, {}, {}};
  draft.rows = {{"a", {{what, "Main caps"}, {stages, "30 N·m (22 lbf·ft) then 60 N·m (34 lbf·ft)"}, {sequence, "2-1-3-3"}}}};
  const DraftProof proof = proof_draft(draft, catalogue());
  ASSERT_EQ(proof.findings.size(), 2U);
  ASSERT_EQ(proof.findings[0].choices.size(), 2U);
  const PutRightChoice& choice = proof.findings[0].choices.front();
  EXPECT_EQ(choice.to, "30 N·m (22 lbf·ft) then 60 N·m (44 lbf·ft)");
  draft.decisions = {{"tightening", "a", "stages", choice.printed, Decided::put_right, choice.to, "JB", "2026-01-05"}};
  EXPECT_EQ(proof_draft(draft, catalogue()).findings.size(), 1U);
  EXPECT_EQ(proof_draft(draft, catalogue()).hold, std::vector<bool>{true});
}

TEST(ProofDraft, ADecisionAnswersItsFinding) {
  SheetDraft draft = bearing_page();
  draft.decisions = {{"reckoned", "a", "new-from", "48.016 mm", Decided::ask, "", "JB", "2026-01-05"}, {"reckoned", "d", "new-from", "0.080 mm", Decided::ask, "", "JB", "2026-01-05"}};
  const DraftProof proof = proof_draft(draft, catalogue());
  ASSERT_EQ(proof.findings.size(), 1U);
  EXPECT_EQ(proof.findings[0].decided, 1);
  EXPECT_EQ(proof.hold, (std::vector<bool>{false, true}));
}

/// 45 N·m is 33 lbf·ft; stages and sequences are put right as a whole.
TEST(ProofDraft, AStageIsPutRightWithAllOthers) {
  SheetDraft draft{"Invented four", "2", "41", {}, PageUnit::millimetre, {}, {}};
  draft.rows = {{"a", {{what, "Head bolts"}, {stages, "30 N·m (22 lbf·ft); 45 N·m (44 lbf·ft); 90°"}}}};
  const DraftProof proof = proof_draft(draft, catalogue());
  ASSERT_EQ(proof.findings.size(), 1U);
  ASSERT_FALSE(proof.findings[0].choices.empty());
  for (const PutRightChoice& choice : proof.findings[0].choices) {
    draft.decisions = {{std::string(proof.findings[0].finding.rule), "a", "stages", choice.printed, Decided::put_right, choice.to, "JB", "2026-01-05"}};
    EXPECT_TRUE(proof_draft(draft, catalogue()).findings.empty()) << choice.to;
    EXPECT_EQ(proof_draft(draft, catalogue()).hold, std::vector<bool>{true}) << choice.to;
  }
}

TEST(ProofDraft, LimitsAndRowsThatGiveNone) {
  const DraftProof proof = proof_draft(bearing_page(), catalogue());
  ASSERT_FALSE(proof.limits.limits.empty());
  for (const SheetLimit& each : proof.limits.limits) EXPECT_EQ(each.row, "c");
  ASSERT_EQ(proof.limits.unused.size(), 3U);
  EXPECT_EQ(proof.limits.unused[0].row, "a");
  EXPECT_EQ(proof.limits.unused[0].why, RowUnused::no_kind);
}

}  // namespace
}  // namespace fettle
