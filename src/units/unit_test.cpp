#include "units/unit.h"

#include <gtest/gtest.h>

#include "units/quantity.h"

namespace fettle {
namespace {

TEST(Units, TableStandsInOrderAndSpellingsAreUnique) {
  for (const Unit& unit : all_units()) {
    EXPECT_EQ(&unit_definition(unit.id), &unit);
    EXPECT_EQ(find_unit(unit.symbol), &unit) << unit.symbol;
    for (auto spelling : unit.spellings) EXPECT_EQ(find_unit(spelling), &unit) << spelling;
  }
}

TEST(Units, ExactFactors) {
  // NIST SP 811 (grade A in the case list): 1 lbf·ft = 1.355818 N·m, 1 psi = 6.894757 kPa, 1 in³ = 16.387064 cm³.
  EXPECT_EQ((Quantity{Ratio(1), UnitId::pound_foot}).in_base().decimal(6), "1.355818");
  EXPECT_EQ((Quantity{Ratio(1), UnitId::psi}).in_base().decimal(3), "6894.757");
  EXPECT_EQ((Quantity{Ratio(1), UnitId::cubic_inch}).in_base().decimal(3), "16387.064");
  EXPECT_EQ((Quantity{Ratio(68), UnitId::fahrenheit}).in_base(), Ratio(20));
  EXPECT_EQ((Quantity{Ratio(0), UnitId::kelvin}).in_base().decimal(2), "-273.15");
}

TEST(Units, WordsWithTwoMeaningsAreNotUnits) {
  for (auto text : {"tenths", "hundredths", "Zehntel", "Hundertstel", "mil", "mils", "lines", ""}) {
    EXPECT_EQ(find_unit(text), nullptr) << text;
  }
}

}  // namespace
}  // namespace fettle
