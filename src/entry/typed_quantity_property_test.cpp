#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "entry/typed_quantity.h"
#include "text/sentence.h"

namespace fettle {
namespace {

constexpr std::int64_t kTenMetres = 10'000 * Length::kCountsPerMillimetre;

/// One figure of one unit, as a person could have typed it.
struct Figure {
  const Unit* unit;
  std::string spelling;
  std::int64_t digits;  ///< the figure without its mark
  int decimals;
  DecimalMark mark;
};

/// How many decimals a figure of this unit may have and still be a whole count of 0.1 nm; 9 for every other dimension.
int most_decimals(const Unit& unit) {
  if (unit.dimension != Dimension::length) return 9;
  int decimals = 0;
  while ((unit.factor / Ratio::power_of_ten(decimals + 1)).is_whole()) ++decimals;
  return decimals;
}

Figure any_figure() {
  const auto& units = all_units();
  const Unit& unit = units[*rc::gen::inRange<std::size_t>(0, units.size())];
  std::vector<std::string_view> spellings = unit.spellings;
  spellings.push_back(unit.symbol);
  const auto spelling = *rc::gen::elementOf(spellings);
  const int decimals = *rc::gen::inRange(0, most_decimals(unit) + 1);
  std::int64_t most = 999'999'999'999;
  if (unit.dimension == Dimension::length) {
    const Ratio longest = Ratio(kTenMetres) / unit.factor * Ratio::power_of_ten(decimals);
    most = static_cast<std::int64_t>(longest.numerator() / longest.denominator());
  }
  const auto digits = *rc::gen::inRange<std::int64_t>(-most, most + 1);
  const auto mark = *rc::gen::element(DecimalMark::point, DecimalMark::comma);
  return {&unit, std::string(spelling), digits, decimals, mark};
}

std::string typed_text(const Figure& figure, bool with_sign) {
  const std::int64_t digits = with_sign || figure.digits >= 0 ? figure.digits : -figure.digits;
  std::string text = (Ratio(digits) * Ratio::power_of_ten(-figure.decimals)).decimal(figure.decimals);
  if (figure.mark == DecimalMark::comma) {
    for (char& c : text) c = c == '.' ? ',' : c;
  }
  // A unit that is itself a figure stands behind a times sign.
  const bool is_figure = figure.spelling.front() == '.' || (figure.spelling.front() >= '0' && figure.spelling.front() <= '9');
  return text + (is_figure ? " × " : " ") + figure.spelling;
}

RC_GTEST_PROP(TypedQuantityProperty, WhatIsPrintedIsReadBackExactly, ()) {
  const Figure figure = any_figure();
  const bool divisions = figure.unit->dimension == Dimension::divisions;
  const std::string text = typed_text(figure, !divisions) + (!divisions ? "" : figure.digits < 0 ? " acw" : " cw");
  const auto read = read_quantity(text, {{}, {}, figure.mark, {}, false, {}}, {});
  RC_LOG() << text;
  RC_ASSERT(read.ok());
  RC_ASSERT(read.value().text == text);
  RC_ASSERT(read.value().quantity.unit == figure.unit->id);
  RC_ASSERT(read.value().quantity.value == Ratio(figure.digits) * Ratio::power_of_ten(-figure.decimals));
  RC_ASSERT(read.value().decimals == figure.decimals);
}

RC_GTEST_PROP(TypedQuantityProperty, AFigureReadWithoutADecimalMarkIsReadTheSameWithOne, ()) {
  const Figure figure = any_figure();
  const std::string text = typed_text(figure, true);
  TypingContext context{{}, {}, {}, {}, true, NeedleSide::clockwise};
  const auto without = read_quantity(text, context, {});
  for (DecimalMark mark : {DecimalMark::point, DecimalMark::comma}) {
    context.decimal_mark = mark;
    const auto with = read_quantity(text, context, {});
    // A stated mark settles, or makes the other mark a thousands mark; it never gives a third meaning.
    if (without.ok() && with.ok()) RC_ASSERT(with.value() == without.value());
    if (mark == figure.mark) RC_ASSERT(with.ok());
  }
}

TypingContext any_context() {
  TypingContext context{{}, {}, {}, {}, *rc::gen::arbitrary<bool>(), {}};
  const auto& units = all_units();
  if (*rc::gen::arbitrary<bool>()) context.unit = units[*rc::gen::inRange<std::size_t>(0, units.size())].id;
  if (*rc::gen::arbitrary<bool>()) context.dimension = units[*rc::gen::inRange<std::size_t>(0, units.size())].dimension;
  if (*rc::gen::arbitrary<bool>()) context.decimal_mark = *rc::gen::element(DecimalMark::point, DecimalMark::comma);
  if (*rc::gen::arbitrary<bool>()) context.trade_words = *rc::gen::element(TradeWords::inch, TradeWords::metric);
  if (*rc::gen::arbitrary<bool>()) context.plus_means = *rc::gen::element(NeedleSide::clockwise, NeedleSide::anticlockwise);
  return context;
}

void check_any_text(const std::string& text) {
  const auto read = read_quantity(text, any_context(), {"f", 1, 1});
  if (read.ok()) {
    RC_ASSERT(read.value().text == text);
    const bool length = read.value().quantity.dimension() == Dimension::length;
    RC_ASSERT(!length || exact_length(read.value().quantity).has_value());
    return;
  }
  for (const Problem& problem : read.problems()) {
    RC_ASSERT(*problem.place.column >= 1);
    RC_ASSERT(*problem.place.column <= static_cast<int>(text.size()) + 1);
    for (Language language : {Language::english, Language::german}) {
      const std::string said = what_and_do(problem, language);
      RC_ASSERT(!said.starts_with("[problem."));
    }
  }
}

RC_GTEST_PROP(TypedQuantityProperty, AnyBytesAreReadOrRefused, (const std::string& bytes)) { check_any_text(bytes); }

RC_GTEST_PROP(TypedQuantityProperty, AnyPiecesOfSenseAreReadOrRefused, ()) {
  const auto pieces = *rc::gen::container<std::vector<std::string>>(
      rc::gen::element<std::string>("1", "84", "020", "0", ".", ",", "-", "+", "/", " ", "½", "mm", "in", "\"", "div", "cw", "acw", "↺", "e",
                                    "tenths", "x", "×", "1/100 mm", ".001 in", "'", "µm", "°", "Nm", "999999999"));
  std::string text;
  for (const std::string& piece : pieces) text += piece;
  check_any_text(text);
}

}  // namespace
}  // namespace fettle
