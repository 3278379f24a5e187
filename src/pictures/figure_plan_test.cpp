#include "pictures/figure_plan.h"

#include <gtest/gtest.h>

#include <map>
#include <set>

#include "catalogue/catalogue.h"
#include "drawing/extent.h"

namespace fettle {
namespace {

PartToDraw drawn_of(const Kind& kind) { return {"Part 1", kind.id, kind.feature, kind.layout, UnitId::millimetre, {}, {}}; }

/// What is drawn inside the group of each place, by "station/direction".
std::map<std::string, std::vector<DrawnMark>> by_place(const Drawing& drawing) {
  std::map<std::string, std::vector<DrawnMark>> out;
  std::string place;
  int depth = 0;
  for (const DrawnMark& mark : drawing.marks) {
    if (const auto* group = std::get_if<GroupStart>(&mark)) {
      ++depth;
      if (group->place) {
        place = *group->place;
        out[place];
      }
    } else if (std::holds_alternative<GroupEnd>(mark)) {
      if (--depth == 0) place.clear();
    } else if (!place.empty()) {
      out[place].push_back(mark);
    }
  }
  return out;
}

/// No drawing is better than a wrong one: which kinds have one is said here, so that none comes by chance.
TEST(FigurePlan, DrawsTheseKindsAndNoOthers) {
  const std::map<FigureSeen, std::set<std::string>> wanted = {
      {FigureSeen::clock, {"clock-face", "flywheel-face", "liner-protrusion"}},
      {FigureSeen::face_lines, {"face", "block-deck", "head-face", "manifold-face"}},
      {FigureSeen::face_points, {"face-heights"}},
      {FigureSeen::shaft, {"crankshaft", "camshaft"}},
      {FigureSeen::tunnel, {"main-tunnel"}},
      {FigureSeen::spring, {"valve-spring", "spring-height"}},
      {FigureSeen::gap, {"ring-side-gap", "valve-lash", "oil-pump-gears", "oil-pump-rotors", "reed-valve"}},
      {FigureSeen::depth, {"liner-counterbore", "flywheel-step", "deck-clearance"}},
      {FigureSeen::thickness, {"liner-flange", "thrust-bearing-width", "friction-plate", "head-thickness", "bearing-shell"}},
      {FigureSeen::pressure, {"compression", "leak-down", "case-test"}},
  };
  std::map<FigureSeen, std::set<std::string>> seen;
  for (const Kind& kind : catalogue().kinds) {
    if (const auto form = figure_seen(drawn_of(kind))) seen[*form].insert(kind.id);
  }
  EXPECT_EQ(seen, wanted);
}

TEST(FigurePlan, EveryPlaceIsSeenAndNothingLeavesThePicture) {
  for (const Kind& kind : catalogue().kinds) {
    const PartToDraw part = drawn_of(kind);
    const auto form = figure_seen(part);
    if (!form) continue;
    for (const Language language : {Language::english, Language::german}) {
      const Drawing drawing = figure_plan(part, *form, language);
      const auto places = by_place(drawing);
      EXPECT_EQ(places.size(), kind.layout.cells()) << kind.id;
      for (const auto& [place, marks] : places) EXPECT_FALSE(marks.empty()) << kind.id << " " << place << ": lit, and nothing shows it";
      for (const DrawnMark& mark : drawing.marks) {
        const auto extent = extent_of(mark);
        if (!extent) continue;
        EXPECT_GE(extent->left, -0.01) << kind.id;
        EXPECT_GE(extent->top, -0.01) << kind.id;
        EXPECT_LE(extent->right, drawing.width + 0.01) << kind.id;
        EXPECT_LE(extent->bottom, drawing.height + 0.01) << kind.id;
      }
    }
  }
}

/// As one stands before it: three o'clock on the right, eleven above on the left.
TEST(FigurePlan, TheClockRunsClockwiseFromTheTop) {
  const auto middle_of = [](const std::string& kind, const std::string& place) {
    const Drawing drawing = figure_plan(drawn_of(*catalogue().kind(kind)), FigureSeen::clock, Language::english);
    const Extent extent = extent_of(by_place(drawing).at(place).front()).value();
    return Point{(extent.left + extent.right) / 2.0 - drawing.width / 2.0, (extent.top + extent.bottom) / 2.0 - 59.0};
  };
  EXPECT_GT(middle_of("clock-face", "clock-3/reading").x, 25.0);
  EXPECT_NEAR(middle_of("clock-face", "clock-3/reading").y, 0.0, 0.5);
  EXPECT_LT(middle_of("clock-face", "clock-12/reading").y, -25.0);
  EXPECT_GT(middle_of("clock-face", "clock-6/reading").y, 25.0);
  EXPECT_LT(middle_of("liner-protrusion", "clock-11/reading").x, -10.0);
  EXPECT_LT(middle_of("liner-protrusion", "clock-11/reading").y, -25.0);
  EXPECT_GT(middle_of("liner-protrusion", "clock-5/reading").x, 10.0);
}

/// A force is pressed on, a length is between the ends.
TEST(FigurePlan, ASpringShowsAForceOtherwiseThanALength) {
  const auto places = by_place(figure_plan(drawn_of(*catalogue().kind("valve-spring")), FigureSeen::spring, Language::english));
  const auto corners = [&](const std::string& place) {
    std::vector<std::pair<double, double>> out;
    for (const DrawnMark& each : places.at(place)) {
      if (const auto extent = extent_of(each)) out.emplace_back(extent->left, extent->top);
    }
    return out;
  };
  EXPECT_NE(corners("fitted-force/reading"), corners("fitted-length/reading"));
  EXPECT_EQ(corners("fitted-force/reading"), corners("open-force/reading"));
  EXPECT_NE(corners("out-of-square/reading"), corners("free-length/reading"));
}

}  // namespace
}  // namespace fettle
