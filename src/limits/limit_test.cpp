#include "limits/limit.h"

#include <gtest/gtest.h>

#include "catalogue/catalogue.h"

namespace fettle {
namespace {

TypedQuantity length(const std::string& text) {
  return read_quantity(text, {{}, Dimension::length, DecimalMark::point, {}, false, {}}, {}).value();
}

Limit bore_limit() {
  return {"bore", "cylinder-bore", "size-1", LimitRole::service, LimitSide::at_most, length("84.100 mm"), {}, {},
          {"book", "", "12", "", false, false}};
}

std::vector<std::string> codes(const Limit& limit, Feature feature = Feature::inside) {
  std::vector<std::string> out;
  for (const Problem& each : limit_problems(limit, catalogue().definition(limit.definition), feature)) out.push_back(each.code);
  return out;
}

TEST(Limit, ASoundOneHasNoProblems) { EXPECT_TRUE(codes(bore_limit()).empty()); }

TEST(Limit, SaysEverythingThatIsWrong) {
  Limit limit = bore_limit();
  limit.definition = "taper";
  limit.origin.page.clear();
  EXPECT_EQ(codes(limit), (std::vector<std::string>{"limits.unknown_definition", "limits.origin_missing"}));
}

TEST(Limit, ADefinitionOfOneKindServesNoOther) {
  Limit limit = bore_limit();
  limit.kind = "main-journal";
  limit.definition = "clr-1";
  EXPECT_EQ(codes(limit, Feature::figure), (std::vector<std::string>{"limits.not_for_kind"}));
  limit.kind = "bore-and-piston";
  EXPECT_TRUE(codes(limit, Feature::figure).empty());
}

TEST(Limit, ARuleOfThumbNeedsAPerson) {
  Limit limit = bore_limit();
  limit.origin = {"", "", "", "", true, false};
  EXPECT_EQ(codes(limit), (std::vector<std::string>{"limits.thumb_not_accepted"}));
  limit.origin.accepted = true;
  EXPECT_TRUE(codes(limit).empty());
}

TEST(Limit, PerLengthGoesWithARatio) {
  Limit limit = bore_limit();
  limit.per = length("1 in");
  EXPECT_EQ(codes(limit), (std::vector<std::string>{"limits.per_not_wanted"}));
  limit.definition = "tap-6";
  EXPECT_TRUE(codes(limit).empty());
  limit.per.reset();
  EXPECT_EQ(codes(limit), (std::vector<std::string>{"limits.per_missing"}));
}

TEST(Limit, WhatDiametersCannotGive) {
  Limit limit = bore_limit();
  limit.definition = "oor-4";
  EXPECT_EQ(codes(limit), (std::vector<std::string>{"limits.needs_other"}));
}

TEST(Limit, TheDefinitionMustFitTheFeature) {
  Limit limit = bore_limit();
  limit.kind = "choke-bore";
  limit.definition = "choke";
  EXPECT_TRUE(codes(limit).empty());
  EXPECT_EQ(codes(limit, Feature::outside), (std::vector<std::string>{"limits.not_for_feature"}));
}

TEST(Limit, ASizeIsAboveNothingATaperMayHaveASign) {
  Limit limit = bore_limit();
  limit.bound = length("-84.1 mm");
  EXPECT_EQ(codes(limit), (std::vector<std::string>{"limits.not_positive"}));
  limit.definition = "tap-4";
  EXPECT_TRUE(codes(limit).empty());
  limit.definition = "oor-1";
  EXPECT_EQ(codes(limit), (std::vector<std::string>{"limits.not_positive"}));
}

// A worn crankpin passed because its largest place was compared with the least allowed size.
TEST(Limit, WearIsNotLookedForAtTheBestPlace) {
  Limit limit = bore_limit();
  limit.definition = "size-3";
  EXPECT_EQ(codes(limit), (std::vector<std::string>{"limits.wrong_end"}));
  limit.side = LimitSide::at_least;
  EXPECT_TRUE(codes(limit).empty());
  EXPECT_EQ(codes(limit, Feature::outside), (std::vector<std::string>{"limits.wrong_end"}));
}

TEST(Limit, ABoundIsALength) {
  Limit limit = bore_limit();
  limit.bound = read_quantity("11.2 bar", {{}, {}, DecimalMark::point, {}, false, {}}, {}).value();
  EXPECT_EQ(codes(limit), (std::vector<std::string>{"limits.wrong_dimension"}));
}

TEST(Limit, WearNeedsItsStandard) {
  Limit limit = bore_limit();
  limit.definition = "wear-1";
  EXPECT_EQ(codes(limit), (std::vector<std::string>{"limits.standard_missing"}));
}

// TM 9-2815-220-24 (W-77, grade A): .0005 per inch is a slope and the same number per millimetre.
TEST(Limit, ASlopeHasNoUnit) {
  Limit inch = bore_limit();
  inch.bound = length(".0005 in");
  inch.per = length("1 in");
  Limit metric = inch;
  metric.bound = length("0.0005 mm");
  metric.per = length("1 mm");
  EXPECT_EQ(bound_of(inch), bound_of(metric));
}

}  // namespace
}  // namespace fettle
