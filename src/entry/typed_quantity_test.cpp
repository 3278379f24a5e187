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
    ASSERT_TRUE(read.ok()) << fields[0] << ": " << sentence(read.problems().front(), Language::english);
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
    ASSERT_FALSE(read.ok()) << fields[0];
    EXPECT_EQ(read.problems().front().code, fields[2]) << fields[0];
    EXPECT_EQ(what_and_do(read.problems().front(), Language::english), fields[3]) << fields[0];
  }
}

TEST(TypedQuantity, ColumnsPointAtTheFault) {
  const auto read = read_quantity("84.02 mn", {{}, {}, {}, {}, false, {}}, {"f", 3, 10});
  ASSERT_FALSE(read.ok());
  EXPECT_EQ(read.problems().front().place, (Place{"f", 3, 16}));
}

TEST(TypedQuantity, RefusesWhatIsNoText) {
  const TypingContext none{{}, {}, {}, {}, false, {}};
  EXPECT_EQ(read_quantity("", none, {}).problems().front().code, "entry.empty");
  EXPECT_EQ(read_quantity("  \t ", none, {}).problems().front().code, "entry.empty");
  EXPECT_EQ(read_quantity("84\xff mm", none, {}).problems().front().code, "entry.not_utf8");
  EXPECT_EQ(read_quantity(std::string(100, '1'), none, {}).problems().front().code, "entry.too_long");
  EXPECT_EQ(read_quantity("84\x01 mm", none, {}).problems().front().code, "entry.control_character");
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
