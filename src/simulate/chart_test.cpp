#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/assertion.h"
#include "drawing/extent.h"
#include "drawing/svg.h"
#include "simulate/loss_chart.h"
#include "simulate/reliability_chart.h"

namespace fettle {
namespace {

constexpr std::array kWidths = {300.0, 360.0, 480.0, 559.0, 560.0, 679.0, 680.0, 900.0, 1200.0};

ReliabilityWords reliability_words() {
  return {"Wie weit die genannte Wahrscheinlichkeit stimmt",
          "Beschreibung",
          "genannte Wahrscheinlichkeit, dass der Motor gut ist",
          "Anteil wirklich guter Motoren, mit 95-%-Bereich",
          "genannt = eingetroffen",
          "Motoren je Zehntel (Formmodell)",
          " %",
          {"Kalibrierfehler 0,021; der Zufall allein gibt 0,018.", "Alle Motoren sind erfunden."}};
}

LossWords loss_words() {
  return {"Verlust jeder Regel im Verh\xc3\xa4ltnis zur besseren Notizbuchregel",
          "Beschreibung",
          "Verh\xc3\xa4ltnis der mittleren Verluste, mit 95-%-Bereich",
          {"Formmodell", "flache Vorgabe, im Nachhinein abgestimmte Schwelle"},
          "Bayes-Grenze",
          "bessere Notizbuchregel",
          "Notizbuch verlor nichts",
          ",",
          {"Alle Motoren sind erfunden."}};
}

/// Counts that fill every bin, from `count` in the first to ten times as many in the last.
Reliability full_reliability(std::size_t count) {
  Reliability out{0, {}, 0.02, 0.01, 0.03, std::nullopt, 0.1, 0.3};
  for (std::size_t i = 0; i < 10; ++i) {
    const double from = static_cast<double>(i) / 10.0;
    const std::size_t n = count * (i + 1);
    out.bins.push_back(
        {from, from + 0.1, n, from + 0.05, from + 0.06, {std::max(0.0, from - 0.1), from + 0.1}, std::nullopt});
    out.count += n;
  }
  return out;
}

/// Two bins only: chance 0.25 with share 0.5 (0.3 to 0.7), chance 0.85 with share 0.8 (0.6 to 0.9).
Reliability two_bins() {
  Reliability out{30, {}, 0.1, 0.1, 0.2, std::nullopt, 0.2, 0.6};
  out.bins.push_back({0.2, 0.3, 10, 0.25, 0.5, {0.3, 0.7}, std::nullopt});
  out.bins.push_back({0.8, 0.9, 20, 0.85, 0.8, {0.6, 0.9}, std::nullopt});
  return out;
}

std::vector<LossRow> loss_rows() {
  return {
      {"exp", {{0, {0.84, 0.02}}, {1, {0.86, 0.05}}}, 0.70},
      {"Kopf verspannt, mit einem sehr langen Namen der Familie", {{0, {0.5, 0.1}}, {1, {1.46, 0.5}}}, std::nullopt},
      {"weit daneben", {{0, {0.9, 0.01}}, {1, {7.318, 1.0}}}, 0.61},
      {"neu", {}, std::nullopt}};
}

template <class Kind>
std::vector<Kind> marks_of(const Drawing& drawing) {
  std::vector<Kind> out;
  for (const DrawnMark& mark : drawing.marks) {
    if (const Kind* kind = std::get_if<Kind>(&mark)) out.push_back(*kind);
  }
  return out;
}

std::vector<Drawing> charts(double width) {
  std::vector<Drawing> out;
  for (const std::size_t count : {1U, 120U, 9'999U, 40'000U}) {
    const std::vector<ReliabilitySeries> series = {{"Formmodell", full_reliability(count)},
                                                   {"flache Vorgabe", two_bins()}};
    out.push_back(reliability_chart(series, reliability_words(), width));
  }
  out.push_back(loss_chart(loss_rows(), loss_words(), width));
  return out;
}

TEST(Charts, NothingLeavesThePaper) {
  for (const double width : kWidths) {
    for (const Drawing& drawing : charts(width)) {
      EXPECT_EQ(drawing.width, width);
      for (const DrawnMark& mark : drawing.marks) {
        const Extent box = extent_of(mark).value();
        const Text* text = std::get_if<Text>(&mark);
        const std::string what = text == nullptr ? "mark" : text->words;
        EXPECT_GE(box.left, 2.0) << what << " at " << width;
        EXPECT_GE(box.top, 2.0) << what << " at " << width;
        EXPECT_LE(box.right, width - 2.0) << what << " at " << width;
        EXPECT_LE(box.bottom, drawing.height - 2.0) << what << " at " << width;
      }
    }
  }
}

TEST(Charts, NoTextLiesOverAnother) {
  for (const double width : kWidths) {
    for (const Drawing& drawing : charts(width)) {
      const std::vector<Text> texts = marks_of<Text>(drawing);
      for (std::size_t i = 0; i < texts.size(); ++i) {
        for (std::size_t j = i + 1; j < texts.size(); ++j) {
          EXPECT_TRUE(apart(extent_of(texts[i]).value(), extent_of(texts[j]).value())) << texts[i].words << " / " << texts[j].words << " at " << width;
        }
      }
    }
  }
}

TEST(Charts, NoUprightLineRunsThroughAText) {
  for (const double width : kWidths) {
    for (const Drawing& drawing : charts(width)) {
      for (const Text& text : marks_of<Text>(drawing)) {
        const Extent box = extent_of(text).value();
        for (const Line& line : marks_of<Line>(drawing)) {
          const Extent other = extent_of(line).value();
          if (other.left != other.right || line.stroke.ink == Ink::wash) continue;
          EXPECT_TRUE(apart(box, other)) << text.words << " at " << width;
        }
      }
    }
  }
}

TEST(Charts, NoTypeIsTinyAndTheFileIsWritten) {
  for (const Drawing& drawing : charts(360.0)) {
    for (const Text& text : marks_of<Text>(drawing)) EXPECT_GE(text.size, 11.0) << text.words;
    const std::string text = svg(drawing, {SvgPalette::paper, "chart"});
    EXPECT_NE(text.find("Beschreibung</desc>"), std::string::npos);
    EXPECT_NE(text.find("<text"), std::string::npos);
  }
}

/// Where the diagonal runs tells where 0 and 1 are.
Line diagonal_of(const Drawing& drawing) {
  for (const Line& line : marks_of<Line>(drawing)) {
    if (line.stroke.dash == Dash::dashed && line.from.x != line.to.x && line.from.y != line.to.y) return line;
  }
  throw InternalError("no diagonal");
}

TEST(ReliabilityChart, MarksStandWhereTheBinsSay) {
  const std::vector<ReliabilitySeries> series = {{"one", two_bins()}};
  const Drawing drawing = reliability_chart(series, reliability_words(), 500.0);
  const Line diagonal = diagonal_of(drawing);
  const double side = diagonal.to.x - diagonal.from.x;
  EXPECT_NEAR(diagonal.from.y - diagonal.to.y, side, 1e-9);  // a square
  const auto place = [&](double across, double up) {
    return Point{diagonal.from.x + across * side, diagonal.from.y - up * side};
  };
  const std::vector<Circle> circles = marks_of<Circle>(drawing);
  ASSERT_EQ(circles.size(), 3U);  // the legend's, then one for each bin
  EXPECT_NEAR(circles[1].centre.x, place(0.25, 0.5).x, 1e-9);
  EXPECT_NEAR(circles[1].centre.y, place(0.25, 0.5).y, 1e-9);
  EXPECT_NEAR(circles[2].centre.x, place(0.85, 0.8).x, 1e-9);
  EXPECT_NEAR(circles[2].centre.y, place(0.85, 0.8).y, 1e-9);
  const std::vector<Line> lines = marks_of<Line>(drawing);
  const auto has_bar = [&](Point from, Point to) {
    return std::any_of(lines.begin(), lines.end(), [&](const Line& line) {
      return line.stroke.ink == Ink::accent &&
             std::fabs(line.from.x - from.x) + std::fabs(line.from.y - from.y) < 1e-6 &&
             std::fabs(line.to.x - to.x) + std::fabs(line.to.y - to.y) < 1e-6;
    });
  };
  EXPECT_TRUE(has_bar(place(0.25, 0.3), place(0.25, 0.7)));
  EXPECT_TRUE(has_bar(place(0.85, 0.6), place(0.85, 0.9)));
  std::vector<Rect> bars = marks_of<Rect>(drawing);
  std::erase_if(bars, [](const Rect& rect) { return !rect.fill; });
  ASSERT_EQ(bars.size(), 2U);
  EXPECT_NEAR(bars[1].height, 2.0 * bars[0].height, 1e-9);  // 20 engines and 10
  EXPECT_NEAR(bars[0].corner.x + bars[0].width / 2.0, place(0.25, 0.0).x, 1e-9);
}

TEST(LossChart, MarksStandWhereTheRatiosSay) {
  const Drawing drawing = loss_chart(loss_rows(), loss_words(), 900.0);
  const std::vector<Text> texts = marks_of<Text>(drawing);
  const auto label = [&](const std::string& words) {
    const auto found = std::find_if(texts.begin(), texts.end(), [&](const Text& text) { return text.words == words; });
    if (found == texts.end()) throw InternalError("no label " + words);
    return found->at.x;
  };
  // From the labels of the axis: where 1 is, and how long 0.2 is.
  const double one = label("1,0");
  const double unit = (label("1,2") - one) / 0.2;
  std::vector<Line> ones;
  std::vector<Line> limits;
  for (const Line& line : marks_of<Line>(drawing)) {
    if (line.from.x != line.to.x) continue;
    if (line.stroke.dash == Dash::dashed) ones.push_back(line);
    if (line.stroke.width == 3.0) limits.push_back(line);
  }
  ASSERT_EQ(ones.size(), 3U);  // not in the row without a mark
  EXPECT_NEAR(ones[0].from.x, one, 1e-9);
  ASSERT_EQ(limits.size(), 3U);  // the legend's, and two rows that know it
  EXPECT_NEAR(limits[1].from.x, one + (0.70 - 1.0) * unit, 1e-6);
  EXPECT_NEAR(limits[2].from.x, one + (0.61 - 1.0) * unit, 1e-6);
  const std::vector<Circle> circles = marks_of<Circle>(drawing);
  ASSERT_EQ(circles.size(), 4U);
  EXPECT_NEAR(circles[1].centre.x, one + (0.84 - 1.0) * unit, 1e-6);
  const std::vector<Line> lines = marks_of<Line>(drawing);
  const auto bar = std::find_if(lines.begin(), lines.end(), [&](const Line& line) {
    return line.stroke.ink == Ink::accent && line.from.y == circles[1].centre.y;
  });
  ASSERT_NE(bar, lines.end());
  EXPECT_NEAR(bar->from.x, one + (0.84 - 1.959964 * 0.02 - 1.0) * unit, 1e-4);
  EXPECT_NEAR(bar->to.x, one + (0.84 + 1.959964 * 0.02 - 1.0) * unit, 1e-4);
  EXPECT_NO_THROW((void)label("7,32"));  // the arrow's number
  EXPECT_NO_THROW((void)label("Notizbuch verlor nichts"));
}

TEST(LossChart, ARatioFarAwayDoesNotStretchTheAxis) {
  const std::vector<LossRow> rows = {{"exp", {{0, {0.9, 0.01}}, {1, {7.318, 1.0}}}, std::nullopt}};
  const Drawing drawing = loss_chart(rows, loss_words(), 900.0);
  std::vector<std::string> labels;
  for (const Text& text : marks_of<Text>(drawing)) {
    if (text.anchor == Anchor::middle && text.ink == Ink::faint) labels.push_back(text.words);
  }
  EXPECT_EQ(labels, (std::vector<std::string>{"0,8", "0,9", "1,0", "1,1", "1,2", "0,8", "0,9", "1,0", "1,1", "1,2"}));
}

Outcome engine(bool good, double ours, std::optional<double> exact, bool notebook) {
  return {good, ours, 0.5, exact, notebook, notebook, notebook, notebook, 24, false};
}

TEST(LossChart, RowTakesExpectedLossesWhereTheyAreKnown) {
  constexpr std::array kListed = {DecisionRule::guarded, DecisionRule::bayes, DecisionRule::ours};
  std::vector<Outcome> outcomes = {engine(true, 0.9, 0.8, false), engine(false, 0.1, 0.3, false),
                                   engine(true, 0.7, 0.9, true)};
  const Scores known = score(outcomes, kTrialCosts, 0.5);
  const LossRow row = loss_row("exp", known, kListed);
  ASSERT_EQ(row.marks.size(), 3U);
  EXPECT_EQ(row.marks[2].rule, 2U);
  EXPECT_EQ(row.marks[2].ratio.value, known.find(DecisionRule::ours)->expected->to_notebook->value);
  EXPECT_EQ(*row.bayes, known.find(DecisionRule::bayes)->expected->to_notebook->value);
  outcomes[0].exact.reset();
  const Scores unknown = score(outcomes, kTrialCosts, 0.5);
  const LossRow raw = loss_row("exp", unknown, kListed);
  ASSERT_EQ(raw.marks.size(), 2U);  // without bayes
  EXPECT_EQ(raw.marks[1].rule, 2U);
  EXPECT_EQ(raw.marks[1].ratio.value, unknown.find(DecisionRule::ours)->raw.to_notebook->value);
  EXPECT_FALSE(raw.bayes);
}

TEST(Charts, RefuseWhatCannotBeDrawn) {
  const std::vector<ReliabilitySeries> one = {{"one", two_bins()}};
  EXPECT_THROW((void)reliability_chart({}, reliability_words(), 500.0), InternalError);
  EXPECT_THROW((void)reliability_chart(one, reliability_words(), 200.0), InternalError);
  EXPECT_THROW((void)loss_chart({}, loss_words(), 500.0), InternalError);
  EXPECT_THROW((void)loss_chart(loss_rows(), loss_words(), 200.0), InternalError);
  std::vector<LossRow> rows = loss_rows();
  rows[0].marks[0].rule = 2;
  EXPECT_THROW((void)loss_chart(rows, loss_words(), 500.0), InternalError);
  LossWords words = loss_words();
  words.rules.resize(7);
  EXPECT_THROW((void)loss_chart(loss_rows(), words, 500.0), InternalError);
}

}  // namespace
}  // namespace fettle
