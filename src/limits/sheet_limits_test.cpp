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
           (each.unsaid.empty() ? "" : " of " + each.unsaid) + "\n";
  }
  for (const UnusedRow& each : all.unused) out += each.row + " " + std::string(row_unused_name(each.why)) + "\n";
  return out;
}
std::string row(const std::string& id, const std::string& more) { return "[[row]]\nid = \"" + id + "\"\nwhat = \"" + id + "\"\npage = \"12\"\n" + more; }

TEST(SheetLimits, ABoreAndAJournalWearToTheirOwnSides) {
  EXPECT_EQ(said(limits(row("bore", "kind = \"cylinder-bore\"\ncharacteristic = \"size\"\nnew = \"84.000-84.020 mm\"\nwear = \"84.100 mm\"\n") + row("main", "kind = \"main-journal\"\ncharacteristic = \"size\"\nnew = \"54.980-55.000 mm\"\nwear = \"54.940 mm\"\n"))),
            "bore-new-min size-3 new at-least 84.000 mm\n"
            "bore-new-max size-1 new at-most 84.020 mm\n"
            "bore-wear size-1 service at-most 84.100 mm\n"
            "main-new-min size-1 new at-least 54.980 mm\n"
            "main-new-max size-3 new at-most 55.000 mm\n"
            "main-wear size-1 service at-least 54.940 mm\n");
}

TEST(SheetLimits, WhatTheBookSaysIsWhatIsJudged) {
  EXPECT_EQ(said(limits(row("oor", "kind = \"cylinder-bore\"\ndefinition = \"oor-1\"\nnew = \"0-0.013 mm\"\nwear = \"0.050 mm\"\n"))),
            "oor-new-max oor-1 new at-most 0.013 mm\noor-wear oor-1 service at-most 0.050 mm\n");
}

TEST(SheetLimits, AFractionStaysWhatItIs) {
  EXPECT_EQ(said(limits(row("free", "kind = \"valve-spring\"\ndefinition = \"spring-free\"\nnew = \"5½ in\"\nwear = \"5 1/4\\\"\"\n"))),
            "free-new-max spring-free new at-least 5-1/2 in\nfree-wear spring-free service at-least 5-1/4 in\n");
}

TEST(SheetLimits, NoRowIsDroppedSilently) {
  const SheetLimits all = limits(row("kindless", "new = \"85 N·m\"\n") + row("torque", "stages = \"30 N·m; 60 N·m; 90°\"\nsequence = \"3-1-2-4\"\n") + row("oil", "quantity = \"4.2 l\"\n") +
                                 row("nut", "once = true\n") + row("taper", "kind = \"cylinder-bore\"\nwear = \"0.1 mm\"\n") + row("spring", "kind = \"valve-spring\"\nnew = \"50 mm\"\n") +
                                 row("bore", "kind = \"cylinder-bore\"\nstep = \"0.25 mm\"\nnew = \"84.250-84.270 mm\"\n") + row("bands", "new = \"up to 0.4 mm\"\nchoose = \"standard\"\n") +
                                 row("slope", "kind = \"cylinder-bore\"\ndefinition = \"tap-6\"\nwear = \"0.0005 in\"\n"));
  EXPECT_EQ(said(all), "kindless no-kind\ntorque assembly\noil assembly\nnut assembly\ntaper no-characteristic\nspring no-definition\nbore step\nbands bands\nslope refused\n");
  EXPECT_EQ(all.unused.back().problems.front().code, "limits.per_missing");
}

TEST(SheetLimits, WhereTheBookDoesNotSayEveryDefinitionIsJudged) {
  EXPECT_EQ(said(limits(row("oor", "kind = \"cylinder-bore\"\ncharacteristic = \"out-of-round\"\nwear = \"0.050 mm\"\n"))),
            "oor-wear-oor-1 oor-1 service at-most 0.050 mm of oor-wear\n"
            "oor-wear-oor-3 oor-3 service at-most 0.050 mm of oor-wear\n");
  const SheetLimits slopes = limits(row("slope", "kind = \"cylinder-bore\"\ncharacteristic = \"taper\"\nwear = \"0.0005 in\"\nper = \"1 in\"\n"));
  EXPECT_EQ(said(slopes), "slope no-definition\n") << "the layout of the catalogue has no depths";
}

TEST(SheetLimits, ADefinitionOfAnotherCharacteristicIsRefused) {
  const auto sheet = read_sheet_file("[sheet]\nbook = \"B\"\n" + row("oor", "kind = \"cylinder-bore\"\ncharacteristic = \"size\"\ndefinition = \"oor-1\"\nwear = \"0.05 mm\"\n"), "sheet.toml", catalogue());
  ASSERT_FALSE(sheet.ok());
  EXPECT_EQ(sheet.problems().front().code, "limits.characteristic_other");
}

TEST(SheetLimits, ASlopePerNothingIsRefused) {
  const auto sheet = read_sheet_file("[sheet]\nbook = \"B\"\n" + row("slope", "kind = \"cylinder-bore\"\ndefinition = \"tap-6\"\nwear = \"0.0005 in\"\nper = \"0 in\"\n"), "sheet.toml", catalogue());
  ASSERT_FALSE(sheet.ok());
  EXPECT_EQ(sheet.problems().front().code, "limits.per_nought");
}

TEST(SheetLimits, WearCountsFromTheStandardThatTheRowSays) {
  const SheetLimits all = limits(row("wear", "kind = \"cylinder-bore\"\ndefinition = \"wear-1\"\nwear = \"0.2 mm\"\nstandard = \"84.000 mm\"\n"));
  ASSERT_EQ(said(all), "wear-wear wear-1 service at-most 0.2 mm\n");
  EXPECT_EQ(all.limits.front().limit.standard->text, "84.000 mm");
  const SheetLimits without = limits(row("wear", "kind = \"cylinder-bore\"\ncharacteristic = \"wear\"\nwear = \"0.2 mm\"\n"));
  ASSERT_EQ(said(without), "wear refused\n") << "the one that needs no standard, which hides even wear, does not judge alone";
  EXPECT_EQ(without.unused.front().problems.front().code, "limits.standard_missing");
}

/// A spring's force falls and a ring gap grows; a share of the highest cylinder says nothing of its side by itself.
TEST(SheetLimits, ASingleFigureWearsToWhereItsLimitLies) {
  const std::string force = "kind = \"valve-spring\"\ndefinition = \"spring-fitted\"\n";
  EXPECT_EQ(said(limits(row("force", force + "new = \"200-220 N\"\nwear = \"180 N\"\n"))),
            "force-new-min spring-fitted new at-least 200 N\nforce-new-max spring-fitted new at-most 220 N\nforce-wear spring-fitted service at-least 180 N\n");
  const SheetLimits alone = limits(row("force", force + "wear = \"180 N\"\n"));
  EXPECT_EQ(said(alone), "force refused\n");
  EXPECT_EQ(alone.unused.front().problems.front().code, "limits.wear_side_unknown");
}

/// Of a run-out, a gap or a pressure that the book gives alone, its own word says the side; one that goes against what is known is not passed over.
TEST(SheetLimits, TheWearLimitSaysItsOwnSide) {
  const std::string bend = "kind = \"crankshaft\"\ndefinition = \"run-neighbours-rule\"\n";
  EXPECT_EQ(said(limits(row("bend", bend + "wear = \"max .003 in\"\n"))), "bend-wear run-neighbours-rule service at-most 0.003 in\n");
  EXPECT_EQ(said(limits(row("low", "kind = \"compression\"\ndefinition = \"compression-least\"\nwear = \"min 8 bar\"\n"))), "low-wear compression-least service at-least 8 bar\n");
  const auto refused_with = [](const std::string& text) {
    const SheetLimits all = limits(text);
    return all.unused.size() == 1 && all.limits.empty() ? all.unused.front().problems.front().code : said(all);
  };
  EXPECT_EQ(refused_with(row("bend", bend + "wear = \".003 in\"\n")), "limits.wear_side_unknown");
  EXPECT_EQ(refused_with(row("bore", "kind = \"cylinder-bore\"\ncharacteristic = \"size\"\nwear = \"min 84.1 mm\"\n")), "limits.wear_side_other");
  EXPECT_EQ(said(limits(row("bore", "kind = \"cylinder-bore\"\ncharacteristic = \"size\"\nwear = \"max 84.1 mm\"\n"))), "bore-wear size-1 service at-most 84.1 mm\n");
}

TEST(SheetLimits, WhatIsPutRightToNothingThatCanBeReadStaysOpen) {
  const std::string slipped = row("bore", "kind = \"cylinder-bore\"\ncharacteristic = \"size\"\nwear = \"84.100 mm (3.3310 in)\"\n");
  const std::string decision = "[[decision]]\nrule = \"units-disagree\"\nrow = \"bore\"\nfield = \"wear\"\nprinted = \"84.100 mm = 3.3310 in\"\nwho = \"JB\"\nwhen = \"2026-01-05\"\ndecided = \"put-right\"\n";
  EXPECT_TRUE(limits(slipped + decision).limits.at(0).open);
  EXPECT_TRUE(limits(slipped + decision + "to = \"abc\"\n").limits.at(0).open);
}

TEST(SheetLimits, OfGradesThoseThatReachFurthestCount) {
  const std::string common = "kind = \"cylinder-bore\"\ncharacteristic = \"size\"\n";
  EXPECT_EQ(said(limits(row("a", common + "grade = \"A\"\nnew = \"84.000-84.005 mm\"\nwear = \"84.100 mm\"\n") + row("b", common + "grade = \"B\"\nnew = \"84.005-84.010 mm\"\nwear = \"84.100 mm\"\n") +
                        row("c", common + "grade = \"C\"\nnew = \"84.010-84.015 mm\"\nwear = \"84.100 mm\"\n"))),
            "a-new-min size-3 new at-least 84.000 mm\na-wear size-1 service at-most 84.100 mm\nc-new-max size-1 new at-most 84.015 mm\nb grade\n");
}

TEST(SheetLimits, AFitSaysWhatIsNewWhereNoFigureDoes) {
  const std::string bore = "kind = \"cylinder-bore\"\ncharacteristic = \"size\"\n";
  EXPECT_EQ(said(limits(row("hole", bore + "fit = \"52 H7\"\n") + row("pin", "kind = \"crankpin\"\ncharacteristic = \"size\"\nfit = \"52 H7/p6\"\n") +
                        row("play", "kind = \"bore-and-piston\"\ndefinition = \"clr-1\"\nfit = \"52 H7/g6\"\n"))),
            "hole-new-min size-3 new at-least 52.000 mm\nhole-new-max size-1 new at-most 52.030 mm\n"
            "pin-new-min size-1 new at-least 52.032 mm\npin-new-max size-3 new at-most 52.051 mm\n"
            "play-new-min clr-1 new at-least 0.010 mm\nplay-new-max clr-1 new at-most 0.059 mm\n");
  EXPECT_EQ(said(limits(row("hole", bore + "fit = \"52 g6\"\n"))), "hole refused\n");
  EXPECT_EQ(limits(row("hole", bore + "fit = \"52 g6\"\n")).unused.front().problems.front().code, "limits.fit_not_of_this");
  EXPECT_EQ(said(limits(row("hole", bore + "fit = \"52 H7\"\nnew = \"52.000-52.025 mm\"\n"))), "hole-new-min size-3 new at-least 52.000 mm\nhole-new-max size-1 new at-most 52.025 mm open\n") << "the figure counts, and the proof asks about it";
}

TEST(SheetLimits, TheFigureIsThatOfTheUnitInWhichTheBookWasMade) {
  const std::string both = row("bore", "kind = \"cylinder-bore\"\ncharacteristic = \"size\"\nwear = \"84.100 mm (3.3110 in)\"\n");
  EXPECT_EQ(limits(both, "original = \"in\"\n").limits.at(0).limit.bound.quantity.unit, UnitId::inch);
  EXPECT_EQ(limits(both, "original = \"mm\"\n").limits.at(0).limit.bound.quantity.unit, UnitId::millimetre);
  EXPECT_EQ(limits(both).limits.at(0).limit.bound.quantity.unit, UnitId::millimetre) << "a thousandth of a mm is finer than a tenth of a thou";
}

TEST(SheetLimits, OneThatRestsOnAnOpenQuestionIsMarkedUntilItIsDecided) {
  const std::string slipped = row("bore", "kind = \"cylinder-bore\"\ncharacteristic = \"size\"\nwear = \"84.100 mm (3.3310 in)\"\n");
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
