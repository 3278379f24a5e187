// How every kind wears, or why it has no pattern of wear: docs/NUMBERS, "Shape model".
#include <gtest/gtest.h>

#include <algorithm>

#include "catalogue/catalogue.h"
#include "catalogue/files.h"

namespace fettle {
namespace {

std::size_t counted_places(const Kind& kind) {
  const auto stations = std::count_if(kind.layout.stations.begin(), kind.layout.stations.end(), [](const auto& each) { return each.counted; });
  const auto directions = std::count_if(kind.layout.directions.begin(), kind.layout.directions.end(), [](const auto& each) { return each.counted; });
  return static_cast<std::size_t>(stations * directions);
}

/// Walks every kind, so that none is forgotten: each says one or the other, and where that comes from.
TEST(KindWear, EveryKindSaysHowItWearsOrWhyItDoesNot) {
  EXPECT_GE(catalogue().kinds.size(), 113U);
  for (const Kind& kind : catalogue().kinds) {
    EXPECT_FALSE(kind.wear.origin.empty()) << kind.id;
    EXPECT_EQ(kind.wear.pattern == WearPattern::none, kind.wear.why_none.has_value()) << kind.id;
    EXPECT_NE(kind.wear.why_none, NotWorn::not_said) << kind.id;
  }
}

/// What is said fits what the kind is.
TEST(KindWear, WhatIsSaidFitsTheKind) {
  for (const Kind& kind : catalogue().kinds) {
    const bool diameter = kind.feature != Feature::figure;
    if (kind.wear.pattern != WearPattern::none) {
      EXPECT_TRUE(diameter) << kind.id;
      EXPECT_GE(counted_places(kind), 2U) << kind.id;
      continue;
    }
    switch (kind.wear.why_none.value()) {
      case NotWorn::single_place: EXPECT_EQ(counted_places(kind), 1U) << kind.id; break;
      case NotWorn::reckoned: EXPECT_FALSE(kind.members.empty()) << kind.id; break;
      case NotWorn::built_to_shape:
      case NotWorn::nothing_runs: EXPECT_TRUE(diameter) << kind.id; break;
      case NotWorn::no_diameter:
      case NotWorn::separate_figures:
        EXPECT_FALSE(diameter) << kind.id;
        EXPECT_TRUE(kind.members.empty()) << kind.id;
        EXPECT_GE(counted_places(kind), 2U - (kind.wear.why_none == NotWorn::separate_figures ? 1U : 0U)) << kind.id;
        break;
      case NotWorn::not_said: ADD_FAILURE() << kind.id; break;
    }
  }
}

TEST(KindWear, ProfilesAreThoseOfTheTrade) {
  const auto pattern = [](const char* id) { return catalogue().kind(id)->wear.pattern; };
  EXPECT_EQ(pattern("cylinder-bore"), WearPattern::from_first);
  EXPECT_EQ(pattern("main-journal"), WearPattern::even);
  EXPECT_EQ(pattern("valve-guide"), WearPattern::both_ends);
  EXPECT_EQ(pattern("bearing-housing"), WearPattern::none);
  EXPECT_EQ(catalogue().kind("rocker-shaft")->wear.unworn, std::vector<std::string>{"beside-it"});
}

std::vector<std::string> codes_of(const std::string& feature, const std::string& wear) {
  Problems problems;
  const std::vector<Material> materials = {{"steel", Ratio(), Mark::common_practice, "x"}};
  (void)read_kinds("[[kind]]\nid = \"k\"\nfeature = \"" + feature + "\"\nmaterial = \"steel\"\norigin = \"o\"\n" + wear +
                       "\nstation = [{ id = \"a\", role = \"first\" }, { id = \"b\", role = \"last\" }]\ndirection = [{ id = \"d\", angle = \"0 °\" }]\n",
                   "kinds.toml", materials, problems);
  std::vector<std::string> out;
  for (const Problem& each : problems) out.push_back(each.code);
  return out;
}

TEST(KindWear, WhatCannotBeIsRefused) {
  using Codes = std::vector<std::string>;
  EXPECT_EQ(codes_of("inside", R"(wear = { pattern = "both-ends", unworn = ["b"], origin = "o" })"), Codes{});
  EXPECT_EQ(codes_of("figure", R"(wear = { pattern = "none", why_none = "no-diameter", origin = "o" })"), Codes{});
  EXPECT_EQ(codes_of("inside", ""), Codes{});  // a kind of somebody's own may say nothing
  EXPECT_EQ(codes_of("figure", R"(wear = { pattern = "even", origin = "o" })"), Codes{"catalogue.unknown_word"});
  EXPECT_EQ(codes_of("inside", R"(wear = { pattern = "even", unworn = ["c"], origin = "o" })"), Codes{"catalogue.unknown_word"});
  EXPECT_EQ(codes_of("inside", R"(wear = { pattern = "even", why_none = "reckoned", origin = "o" })"), Codes{"catalogue.unknown_key"});
  EXPECT_EQ(codes_of("inside", R"(wear = { pattern = "none", origin = "o" })"), Codes{"catalogue.missing_key"});
  EXPECT_EQ(codes_of("inside", R"(wear = { pattern = "even" })"), Codes{"catalogue.missing_key"});
  EXPECT_EQ(codes_of("inside", R"(wear = "even")").size(), 4U);  // no table, and so none of its keys
}

}  // namespace
}  // namespace fettle
