#include "entry/typed_quantity.h"

#include <gtest/gtest.h>

#include <fstream>
#include <sstream>

#include "text/sentence.h"

namespace fettle {
namespace {

std::vector<std::vector<std::string>> read_cases(const std::string& name, std::size_t fields) {
  std::ifstream file(std::string(FETTLE_SOURCE_DIR) + "/tests/entry/" + name);
  EXPECT_TRUE(file.good()) << name;
  std::vector<std::vector<std::string>> cases;
  std::string line;
  while (std::getline(file, line)) {
    if (line.empty() || line.front() == '#') continue;
    std::vector<std::string> parts;
    std::size_t start = 0;
    for (auto bar = line.find(" | "); bar != std::string::npos && parts.size() + 1 < fields; bar = line.find(" | ", start)) {
      parts.push_back(line.substr(start, bar - start));
      start = bar + 3;
    }
    parts.push_back(line.substr(start));
    EXPECT_EQ(parts.size(), fields) << line;
    cases.push_back(parts);
  }
  return cases;
}

Dimension dimension_called(const std::string& name) {
  for (const Unit& unit : all_units()) {
    if (dimension_name(unit.dimension) == name) return unit.dimension;
  }
  ADD_FAILURE() << name;
  return Dimension::length;
}

TypingContext context_of(const std::string& text) {
  TypingContext context{{}, {}, {}, {}, false, {}};
  std::istringstream words(text);
  for (std::string word; words >> word;) {
    const std::string value = word.substr(word.find('=') + 1);
    if (word == "dial") context.on_a_dial = true;
    if (word.starts_with("unit=")) context.unit = find_unit(value)->id;
    if (word.starts_with("mark=")) context.decimal_mark = value == "comma" ? DecimalMark::comma : DecimalMark::point;
    if (word.starts_with("trade=")) context.trade_words = value == "inch" ? TradeWords::inch : TradeWords::metric;
    if (word.starts_with("plus=")) context.plus_means = value == "cw" ? NeedleSide::clockwise : NeedleSide::anticlockwise;
    if (word.starts_with("want=")) context.dimension = dimension_called(value);
  }
  return context;
}

std::string exact_text(const TypedQuantity& typed) {
  const Ratio value = typed.quantity.dimension() == Dimension::length ? typed.quantity.in_base() : typed.quantity.value;
  return value.is_whole() ? to_text(value.numerator()) : to_text(value.numerator()) + "/" + to_text(value.denominator());
}

TEST(TypedQuantity, AcceptedTable) {
  const auto cases = read_cases("accepted.txt", 6);
  EXPECT_GT(cases.size(), 80U);
  for (const auto& fields : cases) {
    const auto read = read_quantity(fields[0], context_of(fields[1]), {"f", 1, 1});
    EXPECT_TRUE(read.ok()) << fields[0] << ": " << sentence(read.problems().front(), Language::english);
    if (!read.ok()) continue;
    const TypedQuantity& typed = read.value();
    EXPECT_EQ(typed.text, fields[0]);
    EXPECT_EQ(dimension_name(typed.quantity.dimension()), fields[2]) << fields[0];
    EXPECT_EQ(exact_text(typed), fields[3]) << fields[0];
    EXPECT_EQ(std::to_string(typed.decimals), fields[4]) << fields[0];
    const std::string side = !typed.side ? "-" : *typed.side == NeedleSide::clockwise ? "cw" : "acw";
    EXPECT_EQ(side, fields[5]) << fields[0];
  }
}

TEST(TypedQuantity, RefusedTable) {
  const auto cases = read_cases("refused.txt", 4);
  EXPECT_GT(cases.size(), 35U);
  for (const auto& fields : cases) {
    const auto read = read_quantity(fields[0], context_of(fields[1]), {"f", 1, 1});
    EXPECT_FALSE(read.ok()) << fields[0];
    if (read.ok()) continue;
    EXPECT_EQ(read.problems().front().code, fields[2]) << fields[0];
    EXPECT_EQ(what_and_do(read.problems().front(), Language::english), fields[3]) << fields[0];
  }
}

/// Worked out by counting the characters: the text begins in column 10.
TEST(TypedQuantity, ColumnsPointAtTheFault) {
  struct Fault {
    std::string text;
    std::string code;
    int column;
  };
  const TypingContext none{{}, {}, {}, {}, false, {}};
  for (const Fault& fault : {Fault{"84.02 mn", "entry.unknown_unit_near", 16}, Fault{"1,234 µm", "entry.ambiguous", 11},
                             Fault{"84.0.2 mm", "entry.two_marks", 14}, Fault{"½ mn", "entry.unknown_unit_near", 12},
                             Fault{"84 02 mm", "entry.two_numbers", 13}, Fault{"  84. mm", "entry.mark_at_end", 14},
                             Fault{"2-1/0 in", "entry.zero_denominator", 13}, Fault{"84.\a2 mm", "entry.control_character", 13},
                             Fault{"84.02", "entry.no_unit", 15}, Fault{"1e3 mm", "entry.exponent", 11}}) {
    const auto read = read_quantity(fault.text, none, {"f", 3, 10});
    ASSERT_FALSE(read.ok()) << fault.text;
    EXPECT_EQ(read.problems().front().code, fault.code) << fault.text;
    EXPECT_EQ(read.problems().front().place, (Place{"f", 3, fault.column})) << fault.text;
  }
}

TEST(TypedQuantity, GivesEveryProblemAtOnce) {
  const auto read = read_quantity("-1,234 in cw", {UnitId::millimetre, Dimension::torque, {}, {}, true, {}}, {});
  ASSERT_FALSE(read.ok());
  std::vector<std::string> codes;
  for (const Problem& each : read.problems()) codes.push_back(each.code);
  // 1234 in is more than 3 m, so the mark is clear; on a dial a length is welcome whatever dimension is wanted.
  EXPECT_EQ(codes, (std::vector<std::string>{"entry.two_units", "entry.sign_and_side"}));
}

TEST(TypedQuantity, RefusesWhatIsNoText) {
  const TypingContext none{{}, {}, {}, {}, false, {}};
  EXPECT_EQ(read_quantity("", none, {}).problems().front().code, "entry.empty");
  EXPECT_EQ(read_quantity("  \t ", none, {}).problems().front().code, "entry.empty");
  EXPECT_EQ(read_quantity("84\xff mm", none, {}).problems().front().code, "entry.not_utf8");
  EXPECT_EQ(read_quantity(std::string(100, '1'), none, {}).problems().front().code, "entry.too_long");
  for (const std::string& unseen : {std::string("84\x01 mm"), std::string("84\0 mm", 6), std::string("84\u200B mm"), std::string("84\u00AD mm")}) {
    EXPECT_EQ(read_quantity(unseen, none, {}).problems().front().code, "entry.control_character") << unseen;
  }
}

TEST(TypedQuantity, PrintedInchesReadBackExactly) {
  for (int millionths = -3'000'000; millionths <= 3'000'000; millionths += 7919) {
    const std::string text = Ratio::of(millionths, 1'000'000).decimal(6) + " in";
    const auto read = read_quantity(text, {{}, {}, DecimalMark::point, {}, false, {}}, {});
    ASSERT_TRUE(read.ok()) << text;
    EXPECT_EQ(exact_length(read.value().quantity), Length::counts(std::int64_t{254} * millionths)) << text;
  }
}

}  // namespace
}  // namespace fettle
