#include "catalogue/layout.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace fettle {
namespace {

Layout bore() {
  return {{{"top", StationRole::first, true, Length::counts(120'000'000)},
           {"mid", StationRole::middle, true, Length::counts(500'000'000)},
           {"bottom", StationRole::last, true, Length::counts(950'000'000)},
           {"foot", StationRole::reference, false, Length::counts(1'180'000'000)}},
          {{"thrust", Ratio(0), true}, {"pin", Ratio(90), true}}};
}

std::vector<std::string> codes(const Layout& layout) {
  std::vector<std::string> out;
  for (const Problem& problem : layout_problems(layout, {})) out.push_back(problem.code);
  return out;
}

using Codes = std::vector<std::string>;

TEST(Layout, AnOrdinaryBoreHasNoProblem) { EXPECT_EQ(codes(bore()), Codes{}); }

TEST(Layout, CellsAreNumberedStationByStation) {
  const Layout layout = bore();
  EXPECT_EQ(layout.cells(), 8U);
  EXPECT_EQ(layout.cell(2, 1), 5U);
  EXPECT_EQ(layout.find_station("foot"), 3U);
  EXPECT_FALSE(layout.find_station("attic").has_value());
  EXPECT_EQ(layout.find_direction("pin"), 1U);
  EXPECT_EQ(layout.find_axis(Axis::cross), 1U);
}

TEST(Layout, EmptyIsTwoProblems) {
  EXPECT_EQ(codes({}), (Codes{"catalogue.layout_no_stations", "catalogue.layout_no_directions"}));
}

TEST(Layout, TwoFirstsAndAWrongOrder) {
  Layout layout = bore();
  layout.stations[1].role = StationRole::first;
  EXPECT_EQ(codes(layout), Codes{"catalogue.layout_role_twice"});
  layout = bore();
  std::swap(layout.stations[0].role, layout.stations[2].role);
  EXPECT_EQ(codes(layout), (Codes{"catalogue.layout_order", "catalogue.layout_order"}));
}

TEST(Layout, TheFootNeverCounts) {
  Layout layout = bore();
  layout.stations[3].counted = true;
  EXPECT_EQ(codes(layout), Codes{"catalogue.layout_reference_counted"});
}

TEST(Layout, DepthsGrowFromFirstToLast) {
  Layout layout = bore();
  layout.stations[1].depth = layout.stations[0].depth;
  EXPECT_EQ(codes(layout), Codes{"catalogue.layout_depth"});
}

TEST(Layout, DirectionsOfOneDiameterAreOneDirection) {
  Layout layout = bore();
  layout.directions[1].angle_degrees = Ratio(180);
  EXPECT_EQ(codes(layout), Codes{"catalogue.layout_angle"});
  layout.directions[1].angle_degrees = Ratio(0);
  EXPECT_EQ(codes(layout), Codes{"catalogue.layout_angle_twice"});
  layout.directions[1] = {"thrust", Ratio(90), true};
  EXPECT_EQ(codes(layout), Codes{"catalogue.id_twice"});
}

}  // namespace
}  // namespace fettle
