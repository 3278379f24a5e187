#include "limits/slips.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "limits/sheet_expression.h"

namespace fettle {
namespace {

bool is_one_slip(const std::string& from, const std::string& to) {
  const std::vector<Slip> all = slips_of(from);
  return std::any_of(all.begin(), all.end(), [&](const Slip& each) { return each.digits == to; });
}

TEST(Slips, WhatHandsAndPressesDo) {
  EXPECT_TRUE(is_one_slip("2.937", "3.937")) << "one digit";
  EXPECT_TRUE(is_one_slip("0.016", "0.0016")) << "the point";
  EXPECT_TRUE(is_one_slip("74.915", "7.4915"));
  EXPECT_TRUE(is_one_slip("0.624", "1.624")) << "the leading digit";
  EXPECT_TRUE(is_one_slip("2.0376", "2.3076")) << "neighbours";
  EXPECT_TRUE(is_one_slip("0.002", "-0.002")) << "the sign";
  EXPECT_FALSE(is_one_slip("2.937", "2.937"));
  EXPECT_FALSE(is_one_slip("0.0030", "0.0027")) << "two digits";
}

TEST(Slips, TheSameSlipInTheOtherEnd) {
  for (const Slip& each : slips_of("0.624")) {
    if (each.digits == "1.624") {
      EXPECT_EQ(same_slip(each, "0.625"), "1.625");
    }
  }
}

double value(const std::string& text) {
  const auto read = read_sheet_expression(text, {});
  EXPECT_TRUE(read.ok()) << text;
  if (!read.ok()) return 0.0;
  return read.value().value([](const std::string& name) -> SheetExpression::Span { return name == "a" ? SheetExpression::Span{2.0, 3.0, 1} : SheetExpression::Span{1.0, 1.5, 1}; }).low;
}

TEST(SheetExpression, IsPlainArithmetic) {
  EXPECT_DOUBLE_EQ(value("a - b"), 0.5) << "the least less the greatest";
  EXPECT_DOUBLE_EQ(value("a - 2 x b"), -1.0);
  EXPECT_DOUBLE_EQ(value("(a + b) / 2"), 1.5);
  EXPECT_DOUBLE_EQ(value("1 + a × b"), 3.0);
  EXPECT_DOUBLE_EQ(value("-a"), -3.0);
  EXPECT_NEAR(value("pi / 4 x b"), 0.785398163, 1e-9);
}

TEST(SheetExpression, WhatCannotBeReadIsRefusedAndNotGuessed) {
  for (const char* each : {"", "a -", "a b", "(a", "a)", "2 x", "a $ b", "1..2"}) EXPECT_FALSE(read_sheet_expression(each, {}).ok()) << each;
  EXPECT_FALSE(read_sheet_expression(std::string(500, '('), {}).ok());
  EXPECT_FALSE(read_sheet_expression(std::string(500, '-') + "a", {}).ok());
}

}  // namespace
}  // namespace fettle
