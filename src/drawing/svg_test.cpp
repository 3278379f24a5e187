#include "drawing/svg.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <limits>

#include "base/assertion.h"
#include "drawing/text_width.h"

namespace fettle {
namespace {

constexpr Stroke kThin = {Ink::ink, 1.0, Dash::solid};

Drawing drawing_of(std::vector<DrawnMark> marks) {
  return {DrawingUnit::pixel, 100.0, 50.0, "Title", "Description", std::move(marks)};
}

std::string paper_svg(std::vector<DrawnMark> marks) {
  return svg(drawing_of(std::move(marks)), {SvgPalette::paper, "d"});
}

Text text_of(std::string words) {
  return {{1.0, 2.0}, std::move(words), 13.0, Ink::ink, Anchor::start, Weight::regular};
}

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

TEST(Svg, WritesTheHeadThePaperAndNothingElseForNoMarks) {
  EXPECT_EQ(paper_svg({}),
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"100.00\" height=\"50.00\" viewBox=\"0 0 100.00 50.00\" "
            "role=\"img\" aria-labelledby=\"d-title d-desc\" font-family=\"system-ui, -apple-system, 'Segoe UI', "
            "'DejaVu Sans', sans-serif\">\n"
            "<title id=\"d-title\">Title</title>\n"
            "<desc id=\"d-desc\">Description</desc>\n"
            "<rect x=\"0.00\" y=\"0.00\" width=\"100.00\" height=\"50.00\" fill=\"#fbfaf6\"/>\n"
            "</svg>\n");
}

TEST(Svg, WritesEveryKindOfMark) {
  const std::string text = paper_svg({
      Line{{1.0, 2.0}, {3.0, 4.0}, {Ink::accent, 2.0, Dash::dashed}},
      Polyline{{{0.0, 0.0}, {5.0, 5.25}}, {Ink::second, 1.5, Dash::dotted}},
      Polygon{{{0.0, 0.0}, {5.0, 5.0}, {0.0, 5.0}}, Ink::third, std::nullopt},
      Rect{{1.0, 1.0}, 2.0, 3.0, std::nullopt, kThin},
      Circle{{7.0, 8.0}, 2.5, Ink::wash, kThin},
      Text{{9.0, 10.0}, "Nut", 12.0, Ink::faint, Anchor::end, Weight::bold},
  });
  EXPECT_TRUE(has(text,
                  "<line x1=\"1.00\" y1=\"2.00\" x2=\"3.00\" y2=\"4.00\" stroke=\"#7d5a12\" stroke-width=\"2.00\" "
                  "stroke-dasharray=\"10.00,6.00\"/>\n"));
  EXPECT_TRUE(has(text,
                  "<polyline points=\"0.00,0.00 5.00,5.25\" fill=\"none\" stroke=\"#35608a\" "
                  "stroke-width=\"1.50\" stroke-dasharray=\"1.50,3.00\"/>\n"));
  EXPECT_TRUE(has(text, "<polygon points=\"0.00,0.00 5.00,5.00 0.00,5.00\" fill=\"#6d4a78\"/>\n"));
  EXPECT_TRUE(has(text,
                  "<rect x=\"1.00\" y=\"1.00\" width=\"2.00\" height=\"3.00\" fill=\"none\" stroke=\"#24292b\" "
                  "stroke-width=\"1.00\"/>\n"));
  EXPECT_TRUE(has(text,
                  "<circle cx=\"7.00\" cy=\"8.00\" r=\"2.50\" fill=\"#dcdcd3\" stroke=\"#24292b\" "
                  "stroke-width=\"1.00\"/>\n"));
  EXPECT_TRUE(has(text,
                  "<text x=\"9.00\" y=\"10.00\" font-size=\"12.00\" fill=\"#5c6466\" text-anchor=\"end\" "
                  "font-weight=\"bold\">Nut</text>\n"));
}

TEST(Svg, WritesArcsPathsBoxesAndGroups) {
  const std::string text = paper_svg({
      Arc{{50.0, 25.0}, 10.0, 0.0, 90.0, kThin},
      Arc{{50.0, 25.0}, 10.0, 90.0, -180.0, kThin},
      Path{{PathMove{{1.0, 2.0}}, PathLine{{3.0, 2.0}}, PathCurve{{4.0, 2.0}, {5.0, 3.0}, {5.0, 4.0}},
            PathArc{{5.0, 5.0}, 1.0, 0.0, 180.0}, PathClose{}},
           Ink::within,
           std::nullopt},
      GroupStart{"place lit", "top/a<b", false},
      TextBox{{10.0, 0.0}, 40.0, "two words", 10.0, Ink::ink, Anchor::middle, Weight::regular},
      GroupEnd{},
  });
  EXPECT_TRUE(has(text, "<path d=\"M50.00,15.00 A10.00,10.00 0 0 1 60.00,25.00\" fill=\"none\" stroke=\"#24292b\" "
                        "stroke-width=\"1.00\"/>\n"));
  EXPECT_TRUE(has(text, "<path d=\"M60.00,25.00 A10.00,10.00 0 1 0 50.00,35.00\"")) << text;  // the long way, anticlockwise
  EXPECT_TRUE(has(text, "<path d=\"M1.00,2.00 L3.00,2.00 C4.00,2.00 5.00,3.00 5.00,4.00 L5.00,4.00 A1.00,1.00 0 0 1 "
                        "5.00,6.00 Z\" fill=\"#3f4a54\"/>\n"));
  EXPECT_TRUE(has(text, "<g class=\"place lit\" data-place=\"top/a&lt;b\">\n<text x=\"30.00\" y=\"10.00\""));
  EXPECT_TRUE(has(text, ">two</text>\n<text x=\"30.00\" y=\"23.50\""));
  EXPECT_TRUE(has(text, ">words</text>\n</g>\n"));
}

std::vector<DrawnMark> nested_groups() {
  return {GroupStart{"place", "top/thrust", false},
          text_of("always"),
          GroupStart{"when-lit", std::nullopt, true},
          text_of("hidden"),
          GroupStart{"inner", std::nullopt, false},
          text_of("hidden too"),
          GroupEnd{},
          GroupEnd{},
          text_of("again"),
          GroupEnd{},
          text_of("after")};
}

TEST(Svg, GroupsForPagesAreLeftOutElsewhere) {
  for (const SvgPalette palette : {SvgPalette::paper, SvgPalette::night}) {
    const std::string text = svg(drawing_of(nested_groups()), {palette, "d"});
    EXPECT_FALSE(has(text, "hidden") || has(text, "when-lit") || has(text, "inner"));
    EXPECT_TRUE(has(text, ">again</text>\n</g>\n<text"));
  }
  const std::string page = svg(drawing_of(nested_groups()), {SvgPalette::page, "d"});
  EXPECT_TRUE(has(page, "<g class=\"when-lit\">\n<text"));
  EXPECT_TRUE(has(page, ">hidden too</text>\n</g>\n</g>\n<text"));
}

TEST(Svg, APageHasNoColours) {
  const std::string text = svg(drawing_of({
                                   Line{{1.0, 2.0}, {3.5, 4.25}, {Ink::here, 2.0, Dash::dashed}},
                                   Rect{{1.0, 1.0}, 2.0, 3.0, Ink::wash, Stroke{Ink::beyond, 1.5, Dash::solid}},
                                   Rect{{1.0, 1.0}, 20.0, 30.0, std::nullopt, std::nullopt},
                                   Text{{9.0, 10.0}, "Nut", 12.0, Ink::close, Anchor::middle, Weight::bold},
                               }),
                               {SvgPalette::page, "d"});
  EXPECT_EQ(text,
            "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"drawing\" width=\"100%\" viewBox=\"0 0 100 50\" "
            "role=\"img\" aria-labelledby=\"d-title d-desc\">\n"
            "<title id=\"d-title\">Title</title>\n"
            "<desc id=\"d-desc\">Description</desc>\n"
            "<line x1=\"1\" y1=\"2\" x2=\"3.5\" y2=\"4.25\" stroke-width=\"2\" stroke-dasharray=\"10,6\" "
            "class=\"s-here\"/>\n"
            "<rect x=\"1\" y=\"1\" width=\"2\" height=\"3\" stroke-width=\"1.5\" class=\"f-wash s-beyond\"/>\n"
            "<rect x=\"1\" y=\"1\" width=\"20\" height=\"30\" fill=\"none\" pointer-events=\"all\"/>\n"
            "<text x=\"9\" y=\"10\" font-size=\"12\" text-anchor=\"middle\" font-weight=\"bold\" "
            "class=\"f-close\">Nut</text>\n"
            "</svg>\n");
}

TEST(Svg, LaterMarksLieOverEarlierOnes) {
  const std::string text = paper_svg({text_of("first"), text_of("then")});
  EXPECT_LT(text.find("first"), text.find("then"));
}

TEST(Svg, EscapesWhatXmlDoesNotAllow) {
  const auto written = [](std::string words) {
    const std::string text = paper_svg({text_of(std::move(words))});
    const std::size_t from = text.rfind("\">", text.find("</text>")) + 2;
    return text.substr(from, text.find("</text>") - from);
  };
  EXPECT_EQ(written("a<b>&\"c\""), "a&lt;b&gt;&amp;&quot;c&quot;");
  EXPECT_EQ(written("]]></text>"), "]]&gt;&lt;/text&gt;");
  EXPECT_EQ(written("5 \xc2\xb5m, \xe2\x89\xa4 30, \xf0\x9d\x84\x9e"),
            "5 \xc2\xb5m, \xe2\x89\xa4 30, \xf0\x9d\x84\x9e");
  EXPECT_EQ(written(std::string("a\x01") + '\0' + "b"),
            "a\xef\xbf\xbd\xef\xbf\xbd"
            "b");
  EXPECT_EQ(written("a\xc3"), "a\xef\xbf\xbd");                                                // cut in the middle
  EXPECT_EQ(written("\xc0\xaf"), "\xef\xbf\xbd\xef\xbf\xbd");                                  // "/" written too long
  EXPECT_EQ(written("\xed\xa0\x80"), "\xef\xbf\xbd\xef\xbf\xbd\xef\xbf\xbd");                  // half of a pair
  EXPECT_EQ(written("\xef\xbf\xbf"), "\xef\xbf\xbd\xef\xbf\xbd\xef\xbf\xbd");                  // U+FFFF
  EXPECT_EQ(written("\xe0\x80\xaf|"), "\xef\xbf\xbd\xef\xbf\xbd\xef\xbf\xbd|");                // three bytes for one
  EXPECT_EQ(written("\xf4\x90\x80\x80"), "\xef\xbf\xbd\xef\xbf\xbd\xef\xbf\xbd\xef\xbf\xbd");  // above U+10FFFF
}

TEST(Svg, EscapesTitleAndDescription) {
  Drawing drawing = drawing_of({});
  drawing.title = "A & B";
  drawing.description = "p < 1";
  const std::string text = svg(drawing, {SvgPalette::night, "chart-2"});
  EXPECT_TRUE(has(text, "<title id=\"chart-2-title\">A &amp; B</title>"));
  EXPECT_TRUE(has(text, "<desc id=\"chart-2-desc\">p &lt; 1</desc>"));
}

TEST(Svg, SizesInMillimetresSaySo) {
  Drawing drawing = drawing_of({});
  drawing.unit = DrawingUnit::millimetre;
  EXPECT_TRUE(has(svg(drawing, {SvgPalette::paper, "d"}), "width=\"100.00mm\" height=\"50.00mm\""));
}

TEST(Svg, NumbersNeverShowMinusZero) {
  const std::string text = paper_svg({Circle{{-0.001, -0.4}, 1.0, Ink::ink, std::nullopt}});
  EXPECT_TRUE(has(text, "cx=\"0.00\" cy=\"-0.40\""));
}

TEST(Svg, RefusesWhatCannotBeDrawn) {
  const double no_number = std::numeric_limits<double>::quiet_NaN();
  EXPECT_THROW((void)paper_svg({Circle{{no_number, 0.0}, 1.0, Ink::ink, std::nullopt}}), InternalError);
  EXPECT_THROW((void)paper_svg({Circle{{0.0, 0.0}, -1.0, Ink::ink, std::nullopt}}), InternalError);
  EXPECT_THROW((void)paper_svg({Rect{{0.0, 0.0}, 1.0, -1.0, Ink::ink, std::nullopt}}), InternalError);
  EXPECT_THROW((void)paper_svg({Polyline{{{0.0, 0.0}}, kThin}}), InternalError);
  EXPECT_THROW((void)paper_svg({Polygon{{{0.0, 0.0}, {1.0, 1.0}}, Ink::ink, std::nullopt}}), InternalError);
  EXPECT_THROW((void)paper_svg({Arc{{0.0, 0.0}, 1.0, 0.0, 360.0, kThin}}), InternalError);
  EXPECT_THROW((void)paper_svg({Path{{PathLine{{1.0, 1.0}}}, std::nullopt, kThin}}), InternalError);
  EXPECT_THROW((void)paper_svg({GroupStart{"place", std::nullopt, false}}), InternalError);
  EXPECT_THROW((void)paper_svg({GroupEnd{}}), InternalError);
  EXPECT_THROW((void)paper_svg({GroupStart{"a\"b", std::nullopt, false}, GroupEnd{}}), InternalError);
  Text pale = text_of("pale");
  pale.ink = Ink::wash;
  EXPECT_THROW((void)paper_svg({pale}), InternalError);
  EXPECT_THROW((void)svg(drawing_of({}), {SvgPalette::paper, ""}), InternalError);
  EXPECT_THROW((void)svg(drawing_of({}), {SvgPalette::paper, "a\"b"}), InternalError);
  EXPECT_THROW((void)svg(drawing_of({}), {SvgPalette::paper, "1a"}), InternalError);
  Drawing flat = drawing_of({});
  flat.height = 0.0;
  EXPECT_THROW((void)svg(flat, {SvgPalette::paper, "d"}), InternalError);
}

struct KnownWidth {
  const char* words;
  double regular;
  double bold;
};

// In em, added up from the tables of advances of the faces DejaVu Sans and DejaVu Sans Bold 2.37.
TEST(TextWidth, GuessIsNotBelowAWideFace) {
  for (const KnownWidth& known :
       {KnownWidth{"Reliability of the stated chance", 15.57, 17.648}, KnownWidth{"Wahrscheinlichkeit", 9.481, 10.77},
        KnownWidth{"0123456789", 6.362, 6.958},
        KnownWidth{"Ma\xc3\x9f\xc3\xbc"
                   "berschreitung",
                   9.704, 11.02}}) {
    const double regular = guessed_width(known.words, 1.0, Weight::regular);
    const double bold = guessed_width(known.words, 1.0, Weight::bold);
    EXPECT_GE(regular, known.regular) << known.words;
    EXPECT_GE(bold, known.bold) << known.words;
    EXPECT_LE(regular, 1.15 * known.regular) << known.words;
    EXPECT_LE(bold, 1.15 * known.bold) << known.words;
  }
}

TEST(TextWidth, GrowsWithItsSize) {
  EXPECT_DOUBLE_EQ(guessed_width("abc", 26.0, Weight::regular), 2.0 * guessed_width("abc", 13.0, Weight::regular));
  EXPECT_EQ(guessed_width("", 13.0, Weight::bold), 0.0);
}

TEST(TextWidth, LinesKeepTheirWordsAndTheirWidth) {
  const std::string words = "share of good engines in each tenth of the stated chance";
  const std::vector<std::string> lines = lines_within(words, 13.0, Weight::regular, 160.0);
  EXPECT_GT(lines.size(), 1U);
  std::string again;
  for (const std::string& line : lines) {
    EXPECT_LE(guessed_width(line, 13.0, Weight::regular), 160.0) << line;
    again += (again.empty() ? "" : " ") + line;
  }
  EXPECT_EQ(again, words);
  EXPECT_EQ(lines_within("Donaudampfschiff ja", 13.0, Weight::regular, 20.0),
            (std::vector<std::string>{"Donaudampfschiff", "ja"}));
  EXPECT_EQ(lines_within("", 13.0, Weight::regular, 20.0), std::vector<std::string>{""});
  EXPECT_EQ(broken_lines("Donaudampfschiff ja", 13.0, Weight::regular, 60.0),
            (std::vector<std::string>{"Donaud", "ampfsc", "hiff", "ja"}));
  EXPECT_EQ(broken_lines("\xc3\xa4\xc3\xa4", 10.0, Weight::regular, 1.0),
            (std::vector<std::string>{"\xc3\xa4", "\xc3\xa4"}));
  EXPECT_EQ(shortened("Donau dampfschiff", 10.0, Weight::regular, 50.0), "Donau\xe2\x80\xa6");
  EXPECT_EQ(shortened("Donau", 10.0, Weight::regular, 50.0), "Donau");
  EXPECT_THROW((void)lines_within("a", 13.0, Weight::regular, 0.0), InternalError);
}

}  // namespace
}  // namespace fettle
