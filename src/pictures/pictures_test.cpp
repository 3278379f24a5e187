#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>

#include "base/assertion.h"
#include "drawing/extent.h"
#include "drawing/pdf.h"
#include "drawing/png.h"
#include "drawing/printed_width.h"
#include "drawing/svg.h"
#include "drawing/text_lines.h"
#include "pictures/dial.h"
#include "pictures/doubt_bar.h"
#include "pictures/section_plan.h"
#include "pictures/sketch.h"
#include "pictures/wear_map.h"
#include "pictures/samples.h"

namespace fettle {
namespace {

constexpr std::array kLanguages = {Language::english, Language::german};

struct ShownText {
  Text text;
  bool when_lit;
};

/// All lines of text that are seen at once: of what shows only where it is lit, that which is lit.
std::vector<ShownText> texts_of(const Drawing& drawing, bool all) {
  std::vector<ShownText> out;
  int left_out = 0;
  int lit = 0;
  for (const DrawnMark& mark : drawing.marks) {
    if (const auto* group = std::get_if<GroupStart>(&mark)) {
      if (left_out > 0 || (group->page_only && !all)) ++left_out;
      if (lit > 0 || group->kind == "when-lit") ++lit;
    } else if (std::holds_alternative<GroupEnd>(mark)) {
      left_out -= left_out > 0 ? 1 : 0;
      lit -= lit > 0 ? 1 : 0;
    } else if (left_out == 0) {
      if (const auto* text = std::get_if<Text>(&mark)) out.push_back({*text, lit > 0});
      if (const auto* box = std::get_if<TextBox>(&mark)) {
        for (const Text& each : lines_of(*box)) out.push_back({each, lit > 0});
      }
    }
  }
  return out;
}

template <class Check>
void for_all_pictures(const Check& check) {
  for (const Language language : kLanguages) {
    for (const SamplePicture& each : sample_pictures(language)) {
      SCOPED_TRACE(each.name + (language == Language::german ? " de" : " en"));
      check(each.drawing);
    }
  }
}

TEST(Pictures, NothingLeavesTheDrawing) {
  for_all_pictures([](const Drawing& drawing) {
    for (const DrawnMark& mark : drawing.marks) {
      const std::optional<Extent> extent = extent_of(mark);
      if (!extent) continue;
      const auto* text = std::get_if<Text>(&mark);
      const auto* box = std::get_if<TextBox>(&mark);
      const std::string what = text != nullptr ? text->words : box != nullptr ? box->words : "mark " + std::to_string(mark.index());
      EXPECT_GE(extent->left, -0.01) << what;
      EXPECT_GE(extent->top, -0.01) << what;
      EXPECT_LE(extent->right, drawing.width + 0.01) << what;
      EXPECT_LE(extent->bottom, drawing.height + 0.01) << what;
    }
  });
}

/// By the guess, which is wide, and by print. What shows where a place is lit lies over what it hides, and is asked apart.
TEST(Pictures, NoTextLiesOverAnother) {
  for_all_pictures([](const Drawing& drawing) {
    const std::vector<ShownText> texts = texts_of(drawing, false);
    for (std::size_t i = 0; i < texts.size(); ++i) {
      for (std::size_t j = i + 1; j < texts.size(); ++j) {
        if (texts[i].when_lit != texts[j].when_lit) continue;
        EXPECT_TRUE(apart(extent_of(texts[i].text).value(), extent_of(texts[j].text).value())) << texts[i].text.words << " / " << texts[j].text.words;
      }
    }
  });
}

TEST(Pictures, NoTextIsTinyAndTheFaceHasEveryLetter) {
  for_all_pictures([](const Drawing& drawing) {
    EXPECT_LE(drawing.width, 340.0);
    for (const ShownText& each : texts_of(drawing, true)) {
      // Drawn 340 wide and shown 328 wide, it is still 11.
      EXPECT_GE(each.text.size * std::min(1.0, 328.0 / drawing.width), 11.0) << each.text.words;
      EXPECT_EQ(letters_not_in_print(each.text.words), 0) << each.text.words;
      EXPECT_EQ(each.text.words.find('['), std::string::npos) << "a key without a sentence: " << each.text.words;
      EXPECT_EQ(each.text.words.find('{'), std::string::npos) << each.text.words;
    }
  });
}

TEST(Pictures, EachHasItsTextEquivalent) {
  for_all_pictures([](const Drawing& drawing) {
    EXPECT_GT(drawing.title.size(), 3U);
    EXPECT_GT(drawing.description.size(), 5U);
    for (const std::string& words : {drawing.title, drawing.description}) {
      EXPECT_EQ(words.find('['), std::string::npos) << words;
      EXPECT_EQ(words.find('{'), std::string::npos) << words;
    }
  });
}

TEST(Pictures, EveryWayOfWritingTakesThem) {
  for (const Language language : kLanguages) {
    std::vector<Drawing> pages;
    for (const SamplePicture& each : sample_pictures(language)) {
      SCOPED_TRACE(each.name);
      const std::string page = svg(each.drawing, {SvgPalette::page, "p"});
      EXPECT_EQ(page.find("style="), std::string::npos);
      EXPECT_EQ(page.find('#'), std::string::npos);  // no colour
      EXPECT_FALSE(svg(each.drawing, {SvgPalette::paper, "p"}).empty());
      EXPECT_FALSE(png(each.drawing, {Palette::night, 1.0}).empty());
      pages.push_back(each.drawing);
    }
    EXPECT_EQ(pdf(pages, {"t", "d", "2031-05-04T10:12:05Z"}), pdf(pages, {"t", "d", "2031-05-04T10:12:05Z"}));
  }
}

const Drawing& sample(const std::vector<SamplePicture>& samples, const std::string& name) {
  for (const SamplePicture& each : samples) {
    if (each.name == name) return each.drawing;
  }
  throw InternalError("no sample " + name);
}

bool says(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

TEST(Pictures, TheTextHoldsTheFigures) {
  const std::vector<SamplePicture> english = sample_pictures(Language::english);
  const std::vector<SamplePicture> german = sample_pictures(Language::german);
  EXPECT_EQ(sample(english, "bore-lit-5-section").description,
            "Places from first to last: top (12 mm), middle (50 mm), bottom (95 mm), foot (118 mm). Directions: thrust, pin. Seen as you "
            "stand at the thrust side (exhaust); that side is nearest. Here now: bottom, pin.");
  EXPECT_TRUE(says(sample(english, "dial").description, "The needle stands at 71 ↺. service limit 78.100: at the limit 88 ↺; with guard band 83 ↺"));
  EXPECT_TRUE(says(sample(german, "dial-coarse").description, "Der Zeiger steht auf 1 Umdrehung + 12 ↻."));
  EXPECT_EQ(sample(english, "rods").description,
            "From the head outward: washer 2 mm, washer 0.5 mm, rod 75 mm. sprung contact pressed in by 0.5 mm; 0.4 mm left for a larger "
            "hole, 0.7 mm left for a smaller hole.");
  // 144 and 15 divisions of 0.001 mm: 129 µm between them.
  EXPECT_TRUE(says(sample(english, "wear-bore").description, "top: thrust 129, pin 95. middle: thrust 57, pin 45. bottom: thrust 13, pin 9. foot: thrust 0, pin 0."));
  EXPECT_TRUE(says(sample(english, "wear-bore").description, "counted from the smallest that was read, 84.013 mm"));
  EXPECT_TRUE(says(sample(english, "wear-holes").description, "middle: thrust not read, pin 35."));
  EXPECT_TRUE(says(sample(german, "wear-journal").description, "vorn: vertikal 9, horizontal 1.") || says(sample(german, "wear-journal").description, "vorn: senkrecht 9, waagerecht 1."))
      << sample(german, "wear-journal").description;
  EXPECT_EQ(sample(english, "bar-beyond").description,
            "Limit: at most 84.100 mm. As measured 84.1418 mm. Best estimate 84.141 mm, 90 in 100 from 84.135 mm to 84.146 mm. Verdict: beyond.");
  EXPECT_EQ(sample(german, "bar-nothing").description, "Es gibt keine Grenze. Nicht gemessen. Kein bester Schätzwert. Urteil: nicht beurteilt.");
  EXPECT_TRUE(says(sample(english, "bar-far").description, "at most 0.04 mm"));
  EXPECT_TRUE(says(sample(english, "face").description, "Greatest gap 0.080 mm: diagonal, first."));
  EXPECT_TRUE(says(sample(english, "face-holes").description, "across, second: not read."));
  // W-35: 0, +.003, −.002, +.003 is a full travel of .005.
  EXPECT_TRUE(says(sample(english, "clock").description, "6 o'clock −0.0020 in, 9 o'clock +0.0030 in. Full travel 0.0050 in: high at 3 o'clock, low at 6 o'clock."));
  EXPECT_TRUE(says(sample(english, "clock").description, "Outer ring: 0.0050 in above it"));  // the least round figure that holds 0.0030
  EXPECT_TRUE(says(sample(english, "clock-mm").description, "9 o'clock not read."));
  EXPECT_TRUE(says(sample(english, "clock-mm").description, "Travel so far 0.080 mm"));
}

TEST(SectionPicture, EveryPlaceIsAGroupWithATarget) {
  const std::vector<SamplePicture> samples = sample_pictures(Language::english);
  for (const auto& [name, places] : std::map<std::string, std::size_t>{{"bore", 8}, {"journal", 6}, {"piston-lit-0", 2}, {"large-bore", 96}, {"large-figure", 96}}) {
    for (const char* end : {"-section", "-plan"}) {
      const std::string page = svg(sample(samples, name + end), {SvgPalette::page, "p"});
      std::set<std::string> found;
      for (std::size_t at = page.find("data-place=\""); at != std::string::npos; at = page.find("data-place=\"", at + 1)) {
        found.insert(page.substr(at + 12, page.find('"', at + 12) - at - 12));
      }
      EXPECT_EQ(found.size(), places) << name << end;
    }
    // Targets lie side by side and cover the whole section.
    double covered = 0.0;
    std::vector<Extent> targets;
    for (const DrawnMark& mark : sample(samples, name + "-section").marks) {
      const auto* rect = std::get_if<Rect>(&mark);
      if (rect == nullptr || rect->fill || rect->stroke) continue;
      covered += rect->width * rect->height;
      const Extent extent = extent_of(mark).value();
      for (const Extent& each : targets) {
        const double wide = std::min(each.right, extent.right) - std::max(each.left, extent.left);
        const double tall = std::min(each.bottom, extent.bottom) - std::max(each.top, extent.top);
        EXPECT_FALSE(wide > 0.01 && tall > 0.01) << name;
      }
      targets.push_back(extent);
    }
    EXPECT_EQ(targets.size(), places) << name;
    if (name != "large-figure") {
      EXPECT_NEAR(covered, 180.0 * 120.0, 1.0) << name;
    }
  }
  const std::string page = svg(sample(samples, "bore-lit-5-section"), {SvgPalette::page, "p"});
  EXPECT_TRUE(says(page, "<g class=\"place lit\" data-place=\"bottom/pin\">"));
  EXPECT_TRUE(says(page, "<g class=\"place\" data-place=\"bottom/thrust\">"));
}

/// Where the blue bar lies tells the direction: thrust points at the person, so it is seen end on in the section and upright in the plan.
TEST(PlanPicture, TheGaugeLiesInTheDirection) {
  const std::vector<SamplePicture> samples = sample_pictures(Language::english);
  const auto blue = [&](const std::string& name) {
    const std::string picture = svg(sample(samples, name), {SvgPalette::paper, "p"});
    std::size_t count = 0;
    for (std::size_t at = picture.find("stroke=\"#1e3a8a\" stroke-width=\"3.00\""); at != std::string::npos;
         at = picture.find("stroke=\"#1e3a8a\" stroke-width=\"3.00\"", at + 1)) {
      ++count;
    }
    return count;
  };
  EXPECT_EQ(blue("bore-lit-0-section"), 0U);  // thrust: end on
  EXPECT_EQ(blue("bore-lit-1-section"), 2U);  // pin: both halves of the bar
  EXPECT_EQ(blue("bore-lit-0-plan"), 2U);
  EXPECT_EQ(blue("bore-plan"), 0U);
  const std::string thrust = svg(sample(samples, "bore-lit-0-plan"), {SvgPalette::paper, "p"});
  EXPECT_TRUE(says(thrust, "<line x1=\"44.00\" y1=\"37.00\" x2=\"44.00\""));  // upright
  const std::string pin = svg(sample(samples, "bore-lit-1-plan"), {SvgPalette::paper, "p"});
  EXPECT_TRUE(says(pin, "<line x1=\"44.00\" y1=\"37.00\" x2=\"64.70\" y2=\"37.00\""));  // to the side
}

TEST(Sketch, RoundSteps) {
  EXPECT_DOUBLE_EQ(round_step_below(0.049), 0.02);
  EXPECT_DOUBLE_EQ(round_step_below(5.0), 5.0);
  EXPECT_DOUBLE_EQ(round_step_above(0.05), 0.05);
  EXPECT_DOUBLE_EQ(round_step_above(0.003), 0.005);
  EXPECT_DOUBLE_EQ(round_step_above(11.0), 20.0);
  EXPECT_DOUBLE_EQ(round_step_above(51.0), 100.0);
  EXPECT_THROW((void)round_step_below(0.0), InternalError);
}

TEST(NeedleMark, AsItIsRead) {
  const auto mark = [](std::int64_t turns, Ratio divisions, std::optional<NeedleSide> side) { return needle_mark({turns, divisions, side}, Language::german); };
  EXPECT_EQ(mark(0, Ratio(88), NeedleSide::anticlockwise), "88 ↺");
  EXPECT_EQ(mark(0, Ratio::of(1767, 20), NeedleSide::clockwise), "88,5 ↻");
  EXPECT_EQ(mark(0, Ratio(0), std::nullopt), "0");
  EXPECT_EQ(mark(2, Ratio(3), NeedleSide::anticlockwise), "2 Umdrehungen + 3 ↺");
}

/// Degrees clockwise from zero of the needle's tip.
double needle_angle(const NeedlePlace& place) {
  const Drawing drawing = dial_picture({Length::counts(10'000), Length::counts(2'000'000), UnitId::millimetre, place, {}}, Language::english);
  for (const DrawnMark& mark : drawing.marks) {
    const auto* area = std::get_if<Polygon>(&mark);
    if (area == nullptr || area->points.size() != 4) continue;
    return std::atan2(area->points[0].x - 160.0, 134.0 - area->points[0].y) * 180.0 / 3.14159265358979;
  }
  throw InternalError("no needle");
}

TEST(DialPicture, TheNeedleStandsOnItsSide) {
  EXPECT_NEAR(needle_angle({0, Ratio(50), NeedleSide::clockwise}), 90.0, 1e-6);  // a quarter of 200 divisions
  EXPECT_NEAR(needle_angle({0, Ratio(50), NeedleSide::anticlockwise}), -90.0, 1e-6);
  EXPECT_NEAR(needle_angle({1, Ratio(25), NeedleSide::anticlockwise}), -45.0, 1e-6);  // turns do not move it
  EXPECT_NEAR(needle_angle({0, Ratio(0), std::nullopt}), 0.0, 1e-6);
}

TEST(DoubtBar, MarksStandOnTheRightSideOfThePost) {
  for (const double measured : {84.05, 84.09, 84.11, 84.2}) {
    const DoubtBar bar{"b", ResultDimension::length, UnitId::millimetre, 84.1, LimitSide::at_most, std::nullopt,
                       BarEstimate{measured - 0.004, measured, measured + 0.004}, VerdictWord::too_close};
    const Drawing drawing = doubt_bar_picture(bar, Language::english);
    double post = -1.0;
    double lozenge = -1.0;
    double good_to = -1.0;
    for (const DrawnMark& mark : drawing.marks) {
      if (const auto* rect = std::get_if<Rect>(&mark)) {
        if (rect->fill == Ink::ink) post = rect->corner.x + rect->width / 2.0;
        if (rect->fill == Ink::wash) good_to = rect->corner.x + rect->width;
      }
      if (const auto* area = std::get_if<Polygon>(&mark)) lozenge = area->points.front().x;
    }
    EXPECT_EQ(lozenge > post, measured > 84.1) << measured;
    EXPECT_NEAR(good_to, post, 1e-9);
  }
}

TEST(WearMap, NothingIsDrawnAcrossAPlaceThatWasNotRead) {
  // Two heights, two directions; one place not read: no line of equal wear at all, and no wall between its heights.
  Layout layout{{Station{"top", StationRole::first, true, std::nullopt}, Station{"bottom", StationRole::last, true, std::nullopt}},
                {Direction{"thrust", Ratio(0), true}, Direction{"pin", Ratio(90), true}}};
  WearToDraw wear{"Bore", Feature::inside, layout, {84.1, 84.08, 84.0, std::nullopt}, std::nullopt, UnitId::millimetre, false};
  const auto inked = [](const Drawing& drawing) {
    std::size_t lines = 0;
    std::size_t walls = 0;
    for (const DrawnMark& mark : drawing.marks) {
      if (const auto* line = std::get_if<Line>(&mark)) lines += line->stroke.ink == Ink::ink ? 1U : 0U;
      if (const auto* wall = std::get_if<Polyline>(&mark)) walls += wall->stroke.ink == Ink::ink ? 1U : 0U;
    }
    return std::pair(lines, walls);
  };
  EXPECT_EQ(inked(wear_map_picture(wear, Language::english)), (std::pair<std::size_t, std::size_t>(0, 2)));
  wear.sizes[3] = 84.0;
  const auto [lines, walls] = inked(wear_map_picture(wear, Language::english));
  EXPECT_GE(lines, 4U);
  EXPECT_EQ(walls, 4U);
  wear.sizes.pop_back();
  EXPECT_THROW((void)wear_map_picture(wear, Language::english), InternalError);
}

TEST(WearMap, ABoreWearsOutwardAndAJournalInward) {
  Layout layout{{Station{"top", StationRole::first, true, std::nullopt}, Station{"bottom", StationRole::last, true, std::nullopt}},
                {Direction{"thrust", Ratio(0), true}}};
  const auto rightmost_start = [&](Feature feature, double first, double last) {
    const Drawing drawing = wear_map_picture({"P", feature, layout, {first, last}, std::nullopt, UnitId::millimetre, false}, Language::english);
    const Polyline* right = nullptr;
    for (const DrawnMark& mark : drawing.marks) {
      if (const auto* wall = std::get_if<Polyline>(&mark)) right = wall;
    }
    return right->points.front().x - right->points.back().x;  // of the right wall: the worn end less the unworn
  };
  EXPECT_GT(rightmost_start(Feature::inside, 84.1, 84.0), 5.0);
  EXPECT_LT(rightmost_start(Feature::outside, 57.9, 58.0), -5.0);
}

}  // namespace
}  // namespace fettle
