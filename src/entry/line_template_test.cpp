#include "entry/line_template.h"

#include <gtest/gtest.h>

namespace fettle {
namespace {

std::optional<LineReading> read_line_as(const std::string& layout, const std::string& line) {
  const Result<LineTemplate> read = LineTemplate::read(layout);
  EXPECT_TRUE(read.ok()) << layout;
  return read.ok() ? read.value().match(line) : std::nullopt;
}

std::string code_of(const std::string& layout) {
  const Result<LineTemplate> read = LineTemplate::read(layout);
  return read.ok() ? "fine" : read.problems().front().code;
}

TEST(LineTemplate, TakesWhatItNames) {
  EXPECT_EQ(read_line_as("{number}", "0.071"), (LineReading{"0.071", ""}));
  EXPECT_EQ(read_line_as("{number} {unit}", "+0,071 mm"), (LineReading{"+0,071", "mm"}));
  EXPECT_EQ(read_line_as("{number}{unit}", "-12.5mm"), (LineReading{"-12.5", "mm"}));
  EXPECT_EQ(read_line_as("{side} {number} {unit}", "acw 71 div"), (LineReading{"71 acw", "div"}));
  EXPECT_EQ(read_line_as("{number}{side}", "71↺"), (LineReading{"71 ↺", ""}));
  EXPECT_EQ(read_line_as("01A{number}", "01A+00000.071"), (LineReading{"+00000.071", ""}));
  EXPECT_EQ(read_line_as("G2: {skip};{number}{unit}", "G2: 0017;3.0712in"), (LineReading{"3.0712", "in"}));
  EXPECT_EQ(read_line_as("{skip} {number}", "ch1, 5"), (LineReading{"5", ""}));
  EXPECT_EQ(read_line_as("{number} {skip}", "5 anything else"), (LineReading{"5", ""}));
  EXPECT_EQ(read_line_as("{number}", "-.071"), (LineReading{"-.071", ""}));
  EXPECT_EQ(read_line_as("{{{number}}}", "{7}"), (LineReading{"7", ""}));
}

TEST(LineTemplate, BlanksStandForBlanksAndThoseAtTheEndsDoNotCount) {
  EXPECT_EQ(read_line_as(" {number} {unit} ", "  71 \t  div\t"), (LineReading{"71", "div"}));
  EXPECT_EQ(read_line_as("{number} {unit}", "71div"), std::nullopt);
  EXPECT_EQ(read_line_as("{number}{unit}", "71 div"), std::nullopt);
}

TEST(LineTemplate, ALineThatLooksOtherwiseIsNotGuessed) {
  EXPECT_EQ(read_line_as("{number} {unit}", ""), std::nullopt);
  EXPECT_EQ(read_line_as("{number} {unit}", "71"), std::nullopt);
  EXPECT_EQ(read_line_as("{number} {unit}", "71 parsecs"), std::nullopt);
  EXPECT_EQ(read_line_as("{number}", "71 72"), std::nullopt);
  EXPECT_EQ(read_line_as("{number}", "1.2.3"), std::nullopt);
  EXPECT_EQ(read_line_as("{number}", "."), std::nullopt);
  EXPECT_EQ(read_line_as("{number}", "-.x"), std::nullopt);
  EXPECT_EQ(read_line_as("{number}", "+"), std::nullopt);
  EXPECT_EQ(read_line_as("{number}", "5."), std::nullopt);
  EXPECT_EQ(read_line_as("{number} {side}", "71 left"), std::nullopt);
  EXPECT_EQ(read_line_as("{number}", std::string("7\0", 2)), std::nullopt);
  EXPECT_EQ(read_line_as("{number}", "7\xff"), std::nullopt);
  EXPECT_EQ(read_line_as("{skip};{number}", std::string(300, 'x') + ";7"), std::nullopt);
}

TEST(LineTemplate, IsRefusedWhereItCouldMeanNothingOrTwoThings) {
  EXPECT_EQ(code_of("{number} {value}"), "entry.template_field");
  EXPECT_EQ(code_of("{number} {number}"), "entry.template_field_twice");
  EXPECT_EQ(code_of("{side}"), "entry.template_number");
  EXPECT_EQ(code_of(""), "entry.template_number");
  EXPECT_EQ(code_of("{number"), "entry.template_brace");
  EXPECT_EQ(code_of("number}{number}"), "entry.template_brace");
  EXPECT_EQ(code_of("{skip}{number}"), "entry.template_skip");
  EXPECT_EQ(code_of("a{{b {number}"), "fine");
}

}  // namespace
}  // namespace fettle
