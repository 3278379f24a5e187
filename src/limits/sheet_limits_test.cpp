#include "limits/sheet_limits.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "limits/sheet_file.h"

namespace fettle {
namespace {

SheetLimits limits(const std::string& rows, const std::string& head = "") {
  const auto sheet = read_sheet_file("[sheet]\nbook = \"Invented four\"\nedition = \"2\"\n" + head + rows, "sheet.toml", catalogue());
  EXPECT_TRUE(sheet.ok()) << (sheet.ok() ? "" : sheet.problems().front().code);
  return sheet.ok() ? limits_of(sheet.value(), proof_read(sheet.value(), catalogue()), catalogue()) : SheetLimits{};
}
std::string said(const SheetLimits& all) {
  std::string out;
  for (const SheetLimit& each : all.limits) {
    out += each.limit.id + " " + each.limit.definition + " " + std::string(role_name(each.limit.role)) + " " + std::string(side_name(each.limit.side)) + " " + each.limit.bound.text + (each.open ? " open" : "") +
           (each.unsaid ? " unsaid" : "") + "\n";
  }
  for (const UnusedRow& each : all.unused) out += each.row + " " + std::string(row_unused_name(each.why)) + "\n";
  return out;
}
std::string row(const std::string& id, const std::string& more) { return "[[row]]\nid = \"" + id + "\"\nwhat = \"" + id + "\"\npage = \"12\"\n" + more; }

TEST(SheetLimits, ABoreAndAJournalWearToTheirOwnSides) {
  EXPECT_EQ(said(limits(row("bore", "kind = \"cylinder-bore\"\nnew = \"84.000-84.020 mm\"\nwear = \"84.100 mm\"\n") + row("main", "kind = \"main-journal\"\nnew = \"54.980-55.000 mm\"\nwear = \"54.940 mm\"\n"))),
            "bore-new-min size-3 new at-least 84.000 unsaid\n"
            "bore-new-max size-1 new at-most 84.020 mm unsaid\n"
            "bore-wear size-1 service at-most 84.100 mm unsaid\n"
            "main-new-min size-1 new at-least 54.980 unsaid\n"
            "main-new-max size-3 new at-most 55.000 mm unsaid\n"
            "main-wear size-1 service at-least 54.940 mm unsaid\n");
}

TEST(SheetLimits, WhatTheBookSaysIsWhatIsJudged) {
  EXPECT_EQ(said(limits(row("oor", "kind = \"cylinder-bore\"\ndefinition = \"oor-1\"\nnew = \"0-0.013 mm\"\nwear = \"0.050 mm\"\n"))),
            "oor-new-max oor-1 new at-most 0.013 mm\noor-wear oor-1 service at-most 0.050 mm\n");
}

TEST(SheetLimits, NoRowIsDroppedSilently) {
  const SheetLimits all = limits(row("torque", "new = \"85 N·m\"\n") + row("bore", "kind = \"cylinder-bore\"\nstep = \"0.25 mm\"\nnew = \"84.250-84.270 mm\"\n") +
                                 row("bands", "new = \"up to 0.4 mm\"\nchoose = \"standard\"\n") + row("slope", "kind = \"cylinder-bore\"\ndefinition = \"tap-6\"\nwear = \"0.0005 in\"\n"));
  EXPECT_EQ(said(all), "torque no-kind\nbore step\nbands bands\nslope refused\n");
  EXPECT_EQ(all.unused.back().problems.front().code, "limits.per_missing");
}

TEST(SheetLimits, TheFigureIsThatOfTheUnitInWhichTheBookWasMade) {
  const std::string both = row("bore", "kind = \"cylinder-bore\"\nwear = \"84.100 mm (3.3110 in)\"\n");
  EXPECT_EQ(limits(both, "original = \"in\"\n").limits.at(0).limit.bound.quantity.unit, UnitId::inch);
  EXPECT_EQ(limits(both, "original = \"mm\"\n").limits.at(0).limit.bound.quantity.unit, UnitId::millimetre);
  EXPECT_EQ(limits(both).limits.at(0).limit.bound.quantity.unit, UnitId::millimetre) << "a thousandth of a mm is finer than a tenth of a thou";
}

TEST(SheetLimits, OneThatRestsOnAnOpenQuestionIsMarkedUntilItIsDecided) {
  const std::string slipped = row("bore", "kind = \"cylinder-bore\"\nwear = \"84.100 mm (3.3310 in)\"\n");
  EXPECT_TRUE(limits(slipped).limits.at(0).open);
  const std::string decision = "[[decision]]\nrule = \"units-disagree\"\nrow = \"bore\"\nfield = \"wear\"\nprinted = \"84.100 mm = 3.3310 in\"\nwho = \"JB\"\nwhen = \"2026-01-05\"\n";
  EXPECT_TRUE(limits(slipped + decision + "decided = \"ask\"\n").limits.at(0).open);
  EXPECT_FALSE(limits(slipped + decision + "decided = \"as-printed\"\n").limits.at(0).open);
  const SheetLimits right = limits(slipped + decision + "decided = \"put-right\"\nto = \"84.100 mm (3.3110 in)\"\n");
  EXPECT_FALSE(right.limits.at(0).open);
  EXPECT_EQ(right.limits.at(0).limit.origin.decision, "put right from 84.100 mm = 3.3310 in, JB 2026-01-05");
  EXPECT_EQ(right.limits.at(0).limit.origin.book, "Invented four");
  EXPECT_EQ(right.limits.at(0).limit.origin.page, "12");
}

}  // namespace
}  // namespace fettle
