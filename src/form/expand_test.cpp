#include "form/expand.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "catalogue/catalogue.h"
#include "form/evaluate.h"

namespace fettle {
namespace {

/// A bore of three stations and the foot, two axes, everything read.
PartGrid bore() {
  PartGrid grid{Feature::inside, catalogue().kind("cylinder-bore")->layout, {}, {}};
  grid.read.assign(grid.layout.cells(), true);
  return grid;
}

Expansion expanded(const char* definition, const PartGrid& grid) { return expand(*catalogue().definition(definition), grid).value(); }

std::vector<std::string> codes(const char* definition, const PartGrid& grid) {
  std::vector<std::string> out;
  const auto expansion = expand(*catalogue().definition(definition), grid);
  for (const Problem& problem : expansion.problems()) out.push_back(problem.code);
  return out;
}

using Cells = std::vector<std::size_t>;
using Codes = std::vector<std::string>;

TEST(Expand, OutOfRoundIsTheGreatestOfDifferences) {
  const Expansion expansion = expanded("oor-1", bore());
  EXPECT_EQ(expansion.sense, Sense::greatest);
  ASSERT_EQ(expansion.forms.size(), 6U);
  EXPECT_EQ(expansion.forms[0].terms, (std::vector<Term>{{0, Ratio(1)}, {1, Ratio(-1)}}));
  EXPECT_EQ(expansion.forms[1].terms, (std::vector<Term>{{0, Ratio(-1)}, {1, Ratio(1)}}));
  EXPECT_EQ(expansion.forms[4].where, (Where{{2}, {0, 1}}));
  ASSERT_EQ(expansion.groups.size(), 3U);
  EXPECT_EQ(expansion.groups[1], (FormGroup{1, std::nullopt, 2, 2}));
}

TEST(Expand, TheFootNeverEnters) {
  for (const Definition& definition : catalogue().definitions) {
    if (!definition.applies(Feature::inside) || !definition.judged()) continue;
    PartGrid grid = bore();
    grid.given = {Length::counts(840'000'000), Length::counts(840'000'000)};
    for (Station& station : grid.layout.stations) station.depth = Length::counts(100'000 * (1 + &station - &grid.layout.stations.front()));
    const auto expansion = expand(definition, grid);
    if (!expansion.ok()) continue;  // three directions are asked for
    for (std::size_t cell : expansion.value().used) EXPECT_LT(cell, 6U) << definition.id;
    for (std::size_t cell : expansion.value().missing) EXPECT_LT(cell, 6U) << definition.id;
  }
}

TEST(Expand, WearPassesItsConstantOn) {
  PartGrid grid = bore();
  grid.given.standard = Length::counts(840'000'000);
  const Expansion expansion = expanded("wear-1", grid);
  ASSERT_EQ(expansion.forms.size(), 6U);
  EXPECT_EQ(expansion.forms[0].constant, Ratio(-840'000'000));
  EXPECT_EQ(expansion.groups.size(), 6U);
  EXPECT_EQ(expansion.groups[5], (FormGroup{2, 1, 5, 1}));
}

TEST(Expand, ABellIsALeast) {
  const Expansion expansion = expanded("bell", bore());
  EXPECT_EQ(expansion.sense, Sense::least);
  ASSERT_EQ(expansion.forms.size(), 2U);
  EXPECT_EQ(expansion.forms[0].terms, (std::vector<Term>{{0, Ratio::of(1, 2)}, {1, Ratio::of(1, 2)}, {2, Ratio::of(-1, 2)}, {3, Ratio::of(-1, 2)}}));
}

TEST(Expand, WhatWasNotReadIsMissing) {
  PartGrid grid = bore();
  grid.read[3] = false;
  const Expansion tap5 = expanded("tap-5", grid);
  EXPECT_EQ(tap5.used, (Cells{0, 1, 2, 4, 5}));
  EXPECT_EQ(tap5.missing, Cells{3});
  // A direction with a hole is left out whole where the stations are named; what was read there is missing as well.
  const Expansion barrel = expanded("barrel", grid);
  EXPECT_EQ(barrel.used, (Cells{0, 2, 4}));
  EXPECT_EQ(barrel.missing, (Cells{1, 3, 5}));
}

TEST(Expand, SaysWhatWasNotRead) {
  PartGrid grid = bore();
  grid.read.assign(grid.layout.cells(), false);
  grid.read[2] = true;
  const auto refusal = expand(*catalogue().definition("size-1"), grid);
  ASSERT_FALSE(refusal.ok());
  const Problem& problem = refusal.problems().front();
  EXPECT_EQ(problem.code, "form.needs_first");
  const auto& missing = std::get<std::vector<Message>>(problem.arguments.back().value);
  ASSERT_EQ(missing.size(), 5U);
  EXPECT_EQ(missing.front(), (Message{"form.place", {word("station", "station.top"), word("direction", "direction.thrust")}}));
}

TEST(Expand, TheLeastReadingForAVerdict) {
  PartGrid grid = bore();
  grid.read = {true, true, false, false, true, false, true, true};
  EXPECT_EQ(codes("oor-1", grid), Codes{"form.needs_directions"});
  grid.read[5] = true;
  EXPECT_EQ(expanded("oor-1", grid).used, (Cells{0, 1, 4, 5}));
  // Two heights are enough where the definition names two, not where it takes them all.
  EXPECT_EQ(expanded("tap-1", grid).used, (Cells{0, 1, 4, 5}));
  EXPECT_EQ(codes("tap-5", grid), Codes{"form.needs_heights"});
}

TEST(Expand, EveryNeedAtOnce) {
  PartGrid grid = bore();
  EXPECT_EQ(codes("wear-5", grid), (Codes{"form.needs_standard", "form.needs_nominal"}));
  EXPECT_EQ(codes("tap-6", grid), Codes{"form.needs_depths"});
  EXPECT_EQ(codes("oor-4", grid), Codes{"form.needs_more"});
  EXPECT_EQ(codes("tap-10", grid), Codes{"form.not_applicable"});
  grid.layout.stations[1].role = StationRole::inner;
  grid.layout.directions[1].angle_degrees = Ratio(45);
  EXPECT_EQ(codes("barrel", grid), Codes{"form.needs_role"});
  EXPECT_EQ(codes("oor-1", grid), Codes{"form.needs_axis"});
}

TEST(Expand, AClearanceNeedsItsMembers) {
  const Kind& pair = *catalogue().kind("bore-and-piston");
  const PartGrid grid{pair.feature, pair.layout, std::vector<bool>(pair.layout.cells(), true), {}};
  EXPECT_EQ(codes("clr-2", grid), (Codes{"form.needs_member", "form.needs_member"}));
  EXPECT_EQ(expanded("clr-6", grid).used.size(), pair.layout.cells());
}

TEST(Expand, AStandardOfNoSizeIsNone) {
  PartGrid grid = bore();
  grid.given = {Length(), Length::counts(-1)};
  EXPECT_EQ(codes("wear-5", grid), (Codes{"form.needs_standard", "form.needs_nominal"}));
}

TEST(Expand, APistonIsJudgedAcrossThePinOnly) {
  const Kind& piston = *catalogue().kind("piston");
  const PartGrid grid{piston.feature, piston.layout, {true, true}, {}};
  EXPECT_EQ(expanded("size-1", grid).used, Cells{0});
}

TEST(Expand, DirectionsThatNearlyCoincideGiveNoOval) {
  PartGrid grid = bore();
  grid.layout.directions.push_back({"again", Ratio::of(1, 1000), true});
  grid.read.assign(grid.layout.cells(), true);
  EXPECT_EQ(codes("oor-6", grid), Codes{"numeric.two_lobe_undetermined"});
}

TEST(Expand, TooManyFormsAreRefused) {
  // The mean over eight heights of a range over four directions: 12 differences each, 12^8 sums.
  PartGrid grid{Feature::inside, {}, {}, {}};
  for (int i = 0; i < 8; ++i) grid.layout.stations.push_back({std::to_string(i), StationRole::inner, true, {}});
  for (int i = 0; i < 4; ++i) grid.layout.directions.push_back({std::to_string(i), Ratio(45 * i), true});
  grid.read.assign(32, true);
  Definition definition = *catalogue().definition("size-1");
  Expression size{Operation::size, Over::all, {}, {}, Ratio(), {}};
  Expression range{Operation::range, Over::directions, {}, {}, Ratio(), {size}};
  definition.reckonings[0].expression = {Operation::mean, Over::heights, {}, {}, Ratio(), {range}};
  const auto refusal = expand(definition, grid);
  ASSERT_FALSE(refusal.ok());
  EXPECT_EQ(refusal.problems().front().code, "form.too_many_forms");
}

TEST(Expand, ASumOfGreatestsIsTheGreatestOfSums) {
  // mean over two directions of the range over two heights, by hand: (|4 - 1| + |2 - 7|) / 2 = 4.
  PartGrid grid = bore();
  grid.layout.stations.resize(2);
  grid.read.assign(4, true);
  Definition definition = *catalogue().definition("size-1");
  Expression size{Operation::size, Over::all, {}, {}, Ratio(), {}};
  Expression range{Operation::range, Over::heights, {}, {}, Ratio(), {size}};
  definition.reckonings[0].expression = {Operation::mean, Over::directions, {}, {}, Ratio(), {range}};
  const Expansion expansion = expand(definition, grid).value();
  EXPECT_EQ(expansion.forms.size(), 4U);
  EXPECT_EQ(evaluate_exact(expansion, {Ratio(4), Ratio(2), Ratio(1), Ratio(7)}).value, Ratio(4));
}

}  // namespace
}  // namespace fettle
