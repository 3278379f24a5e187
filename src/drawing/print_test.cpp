#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>

#include "attachment/pixels.h"
#include "attachment/png_picture.h"
#include "base/assertion.h"
#include "drawing/pdf.h"
#include "drawing/png.h"
#include "drawing/printed_width.h"
#include "drawing/text_width.h"

namespace fettle {
namespace {

constexpr Stroke kPen = {Ink::ink, 1.0, Dash::solid};

Text printed(Point at, std::string words, Anchor anchor = Anchor::start) {
  return {at, std::move(words), 12.0, Ink::ink, anchor, Weight::regular};
}

Drawing sample_page() {
  return {DrawingUnit::pixel,
          200.0,
          100.0,
          "Title",
          "Description",
          {Rect{{10.0, 10.0}, 40.0, 30.0, Ink::here, std::nullopt}, printed({10.0, 60.0}, "84.078 mm, 5 \xc2\xb5m \xe2\x86\xba"),
           // A text and then a circle: no line may run from the one to the other.
           Circle{{165.0, 60.0}, 20.0, std::nullopt, kPen}, GroupStart{"when-lit", std::nullopt, true},
           printed({10.0, 80.0}, "hidden"), GroupEnd{}, printed({190.0, 95.0}, "Ma\xc3\x9f", Anchor::end)}};
}

const PdfAbout kAbout = {"Bore 2 & 3", "What it shows", "2031-05-04T10:12:05Z"};

/// What another program says of a file of ours.
std::string said_by(const std::string& command, const std::string& bytes) {
  char name[] = "/tmp/fettle-print-XXXXXX";
  const int file = mkstemp(name);
  EXPECT_GE(file, 0);
  std::ofstream(name, std::ios::binary) << bytes;
  FILE* pipe = popen((command + " " + name + (command.starts_with("pdftotext") ? " -" : "") + " 2>&1").c_str(), "r");
  std::string out;
  for (int c = std::fgetc(pipe); c != EOF; c = std::fgetc(pipe)) out += static_cast<char>(c);
  EXPECT_EQ(pclose(pipe), 0) << out;
  std::filesystem::remove(name);
  return out;
}

TEST(Pdf, AnotherReaderFindsWordsSizesAndDates) {
  Drawing second = sample_page();
  second.unit = DrawingUnit::millimetre;
  second.marks = {printed({20.0, 50.0}, "second page")};
  const std::string file = pdf({sample_page(), second}, kAbout);
  const std::string words = said_by("pdftotext -layout", file);
  for (const char* wanted : {"84.078 mm, 5 \xc2\xb5m \xe2\x86\xba", "Ma\xc3\x9f", "second page"}) {
    EXPECT_NE(words.find(wanted), std::string::npos) << wanted << "\n" << words;
  }
  EXPECT_EQ(words.find("hidden"), std::string::npos);
  const std::string about = said_by("pdfinfo -f 1 -l 2 -isodates", file);
  for (const char* wanted : {"Bore 2 & 3", "What it shows", "Pages:           2", " 150 x 75 pts",
                             " 566.929 x 283.465 pts", "2031-05-04T10:12:05Z"}) {
    EXPECT_NE(about.find(wanted), std::string::npos) << wanted << "\n" << about;
  }
}

TEST(Pdf, TwoRunsGiveTheSameBytes) {
  EXPECT_EQ(pdf({sample_page()}, kAbout), pdf({sample_page()}, kAbout));
  EXPECT_THROW((void)pdf({}, kAbout), InternalError);
}

Pixels pixels_of(const Drawing& drawing, const PngStyle& style) { return decode_png(png(drawing, style)).value(); }

Colour at(const Pixels& pixels, int x, int y) {
  const auto place = pixels.row() * static_cast<std::size_t>(y) + pixels.step * static_cast<std::size_t>(x);
  return {pixels.bytes.at(place), pixels.bytes.at(place + 1), pixels.bytes.at(place + 2)};
}

bool same(Colour a, Colour b) { return a.red == b.red && a.green == b.green && a.blue == b.blue; }

TEST(Png, MarksLieWhereTheyAreDrawn) {
  for (const Palette palette : {Palette::paper, Palette::night}) {
    const Pixels pixels = pixels_of(sample_page(), {palette, 2.0});
    EXPECT_EQ(pixels.width, 400);
    EXPECT_EQ(pixels.height, 200);
    const Colour paper = colour_of(Ink::paper, palette);
    EXPECT_TRUE(same(at(pixels, 60, 50), colour_of(Ink::here, palette)));
    EXPECT_TRUE(same(at(pixels, 120, 50), paper));
    EXPECT_TRUE(same(at(pixels, 330, 120), paper));  // inside the circle
    EXPECT_TRUE(same(at(pixels, 330, 80), colour_of(Ink::ink, palette)));  // its highest point
    // Between text and circle nothing is drawn.
    for (int x = 274; x < 288; ++x) EXPECT_TRUE(same(at(pixels, x, 120), paper)) << x;
    for (int y = 140; y < 170; ++y) EXPECT_TRUE(same(at(pixels, 40, y), paper)) << y;  // where the hidden text would be
  }
}

/// Faces and libraries differ in the last grey level from machine to machine, so a few pixels may differ.
TEST(Png, LooksLikeThePictureThatWasLookedAt) {
  const std::string path = std::string(FETTLE_SOURCE_DIR) + "/tests/golden/drawing/sample.png";
  const std::string now = png(sample_page(), {Palette::paper, 2.0});
  if (std::getenv("RECORD") != nullptr) std::ofstream(path, std::ios::binary) << now;
  std::ifstream file(path, std::ios::binary);
  const std::string kept((std::istreambuf_iterator<char>(file)), {});
  const Pixels a = decode_png(kept).value();
  const Pixels b = decode_png(now).value();
  ASSERT_EQ(a.bytes.size(), b.bytes.size());
  std::size_t far = 0;
  for (std::size_t i = 0; i < a.bytes.size(); ++i) far += std::abs(a.bytes[i] - b.bytes[i]) > 48 ? 1U : 0U;
  EXPECT_LT(far, a.bytes.size() / 500);
}

TEST(Png, TwoRunsGiveTheSameBytes) {
  EXPECT_EQ(png(sample_page(), {Palette::paper, 2.0}), png(sample_page(), {Palette::paper, 2.0}));
  EXPECT_NE(png(sample_page(), {Palette::paper, 1.0}), png(sample_page(), {Palette::night, 1.0}));
  EXPECT_THROW((void)png(sample_page(), {Palette::paper, 1000.0}), InternalError);
}

TEST(PrintedWidth, IsTheWidthInPrintAndNeverAboveTheGuess) {
  // Added up from the advances of DejaVu Sans 2.37, as in TextWidth.GuessIsNotBelowAWideFace.
  EXPECT_NEAR(printed_width("0123456789", 100.0, Weight::regular), 636.2, 0.3);
  // Letters that stand close move together, up to a tenth of an em: "Wa".
  EXPECT_NEAR(printed_width("Wahrscheinlichkeit", 100.0, Weight::regular), 948.1 - 9.9, 0.3);
  for (const char* words : {"84.078", "Druckrichtung", "\xe2\x86\xba 144", "\xc3\x9c" "bermaß +0.25"}) {
    EXPECT_LE(printed_width(words, 12.0, Weight::regular), guessed_width(words, 12.0, Weight::regular)) << words;
  }
}

TEST(PrintedWidth, LettersThatTheFaceLacksAreCounted) {
  EXPECT_EQ(letters_not_in_print("84.078 mm \xc2\xb1 5 \xc2\xb5m, 88 \xe2\x86\xba \xe2\x86\xbb \xe2\x8c\x80 \xe2\x88\x92 \xe2\x89\xa4 \xc2\xb7 \xe2\x80\xa6"), 0);
  EXPECT_EQ(letters_not_in_print("\xe4\xb8\xad"), 1);
}

}  // namespace
}  // namespace fettle
