#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <iostream>

#include "limits/proof_desk.h"
#include "limits/proof_on_bench.h"
#include "limits/proof_row_unit.h"

namespace fettle {
namespace {

constexpr std::array<const char*, 4> kMade{"made_metric", "made_metric_and_inch", "made_inch", "made_inch_and_metric"};

LimitSheet right_sheet(const std::string& name) { return typed_sheet(sheet_text("right/" + name + ".csv")); }

bool is_in_a_fit(const LimitSheet& sheet, const SheetRow& row) {
  if (!row.from.empty()) return true;
  return std::any_of(sheet.rows.begin(), sheet.rows.end(), [&](const SheetRow& each) { return (" " + each.from + " ").find(" " + row.id + " ") != std::string::npos; });
}

/// Whether a second figure of the sheet says what this one has to be.
bool has_witness(const LimitSheet& sheet, const SheetRow& row, SheetField field) {
  const bool in_series = std::count_if(sheet.rows.begin(), sheet.rows.end(), [&](const SheetRow& each) { return each.what == row.what; }) >= 3;
  return figure(row, field).in_both() || in_series || (field != SheetField::wear && is_in_a_fit(sheet, row));
}

bool names(const ProofFinding& finding, const SheetRow& row, const TypedQuantity& meant) {
  return std::any_of(finding.likeliest.begin(), finding.likeliest.end(), [&](const Likeliest& each) { return each.spot.row == row.id && each.text.find(digits_of(meant)) != std::string::npos; });
}

struct Rates {
  std::size_t tried = 0;
  std::size_t found = 0;
  std::size_t more_than_one = 0;
  std::size_t named = 0;

  void count(const std::vector<ProofFinding>& findings, bool is_named) {
    ++tried;
    found += findings.empty() ? 0U : 1U;
    more_than_one += findings.size() > 1 ? 1U : 0U;
    named += is_named ? 1U : 0U;
  }
  void print(const char* what) const {
    std::cout << what << ": tried " << tried << ", found " << found << ", told more than once " << more_than_one << ", the right figure named " << named << "\n";
  }
  [[nodiscard]] double part(std::size_t of) const { return static_cast<double>(of) / static_cast<double>(tried); }
};

/// Every figure of a sheet with every fifth slip, one at a time.
void damage_figures(const LimitSheet& right, Rates& rates) {
  for (std::size_t i = 0; i < right.rows.size(); ++i) {
    const SheetRow& row = right.rows[i];
    for (const SheetField field : {SheetField::fresh_from, SheetField::fresh_to, SheetField::wear}) {
      for (const UnitFamily family : kUnitFamilies) {
        const auto& printed = figure(row, field).in(family);
        if (!printed || !has_witness(right, row, field) || row.fresh.from == row.fresh.to) continue;
        const std::vector<Slip> slips = slips_of(digits_of(*printed));
        for (std::size_t slip = (i * 7) % 5; slip < slips.size(); slip += 5) {
          LimitSheet damaged = right;
          figure(damaged.rows[i], field).in(family) = with_digits(*printed, slips[slip].digits);
          const std::vector<ProofFinding> findings = proof_read(damaged, catalogue());
          rates.count(findings, std::any_of(findings.begin(), findings.end(), [&](const ProofFinding& each) { return names(each, row, *printed); }));
        }
      }
    }
  }
}

TEST(ProofDamage, AFigureThatASecondOneSpeaksForIsFoundIfItSlips) {
  Rates rates;
  for (const char* name : kMade) damage_figures(right_sheet(name), rates);
  rates.print("slips");
  EXPECT_GT(rates.tried, 6000U);
  EXPECT_GE(rates.part(rates.found), 0.98);
  EXPECT_GE(rates.part(rates.named), 0.96);
  EXPECT_EQ(rates.more_than_one, 0U);
}

/// Rounding hides more of what is printed to a tenth, and where nothing else speaks, either unit may be the wrong one.
TEST(ProofDamage, PairsOfTorqueForceVolumePressureAndMassAreFoundIfOneSlips) {
  Rates rates;
  damage_figures(right_sheet("made_torque_force_volume"), rates);
  rates.print("other dimensions");
  EXPECT_GT(rates.tried, 1000U);
  EXPECT_GE(rates.part(rates.found), 0.95);
  EXPECT_GE(rates.part(rates.named), 0.85);
  EXPECT_EQ(rates.more_than_one, 0U);
}

/// All figures of one row in another unit, rounded to as many places as that is usually printed with.
void damage_row(const LimitSheet& right, std::size_t at, UnitFamily family, const UnitSlip& slip, Rates& rates) {
  const SheetRow& row = right.rows[at];
  LimitSheet damaged = right;
  const UnitSlip other_way{Ratio(1) / slip.factor, {}, -slip.decimals, slip.length_only};
  for (const SheetField field : printed_fields(row, family)) {
    const TypedQuantity typed = in_unit(*figure(row, field).in(family), other_way);
    damaged.rows[at] = with_figure(damaged.rows[at], field, family, with_digits(typed, digits_of(typed)));
  }
  const std::vector<ProofFinding> findings = proof_read(damaged, catalogue());
  const TypedQuantity& meant = *row.fresh.to.in(family);
  rates.count(findings, std::any_of(findings.begin(), findings.end(), [&](const ProofFinding& each) { return names(each, row, meant); }));
}

TEST(ProofDamage, ARowInAnotherUnitIsToldOnce) {
  Rates powers;
  Rates inches;
  for (const char* name : kMade) {
    const LimitSheet right = right_sheet(name);
    for (std::size_t i = 0; i < right.rows.size(); ++i) {
      const SheetRow& row = right.rows[i];
      if (row.fresh.from == row.fresh.to || !has_witness(right, row, SheetField::fresh_from)) continue;
      for (const UnitFamily family : kUnitFamilies) {
        if (!row.fresh.to.in(family)) continue;
        for (const UnitSlip& slip : unit_slips()) damage_row(right, i, family, slip, slip.length_only ? inches : powers);
      }
    }
  }
  powers.print("rows by a power of ten");
  inches.print("rows by an inch");
  EXPECT_GT(powers.tried, 1000U);
  EXPECT_EQ(powers.found, powers.tried);
  EXPECT_EQ(powers.more_than_one, 0U);
  EXPECT_GE(powers.part(powers.named), 0.95);
  EXPECT_GE(inches.part(inches.found), 0.99);
  EXPECT_EQ(inches.more_than_one, 0U);
}

/// Nothing else speaks for it: what is seen is what lies inside, on the side to which nothing wears, or further off than parts wear.
TEST(ProofDamage, AWearLimitThatStandsAloneIsFoundWhereItCannotBe) {
  Rates rates;
  for (const char* name : {"made_metric", "made_inch"}) {
    const LimitSheet right = right_sheet(name);
    for (std::size_t i = 0; i < right.rows.size(); ++i) {
      const TypedQuantity* printed = right.rows[i].wear.preferring(UnitFamily::metric);
      if (printed == nullptr || has_witness(right, right.rows[i], SheetField::wear) || right.rows[i].fresh.from == right.rows[i].fresh.to) continue;
      const std::vector<Slip> slips = slips_of(digits_of(*printed));
      for (std::size_t slip = i % 3; slip < slips.size(); slip += 3) {
        LimitSheet damaged = right;
        damaged.rows[i].wear.in(family_of(printed->quantity.unit)) = with_digits(*printed, slips[slip].digits);
        const std::vector<ProofFinding> findings = proof_read(damaged, catalogue());
        rates.count(findings, std::any_of(findings.begin(), findings.end(), [&](const ProofFinding& each) { return names(each, right.rows[i], *printed); }));
      }
    }
  }
  rates.print("wear limits alone");
  EXPECT_GT(rates.tried, 700U);
  EXPECT_GE(rates.part(rates.found), 0.5);
  EXPECT_EQ(rates.more_than_one, 0U);
}

}  // namespace
}  // namespace fettle
