#include "job/typed_alone.h"

#include <algorithm>

#include "units/exact_decimal.h"

namespace fettle {
namespace {

std::string with_symbol(const std::string& text, UnitId unit) { return text + " " + std::string(unit_definition(unit).symbol); }

}  // namespace

bool needs_unit(const TypedQuantity& typed, const JobMarks& marks) {
  if (typed.quantity.unit == UnitId::division || typed.quantity.unit == UnitId::piece) return false;
  const bool on_a_dial = typed.side.has_value();
  const TypingContext alone{std::nullopt, std::nullopt, marks.decimal_mark, marks.trade_words, on_a_dial, NeedleSide::clockwise};
  const Result<TypedQuantity> read = read_quantity(typed.text, alone, {});
  if (read.ok()) return read.value().quantity.unit != typed.quantity.unit;
  const Problems& problems = read.problems();
  return std::any_of(problems.begin(), problems.end(), [](const Problem& each) { return each.code == "entry.no_unit"; });
}

std::string typed_alone(const TypedQuantity& typed, const JobMarks& marks) {
  return needs_unit(typed, marks) ? with_symbol(typed.text, typed.quantity.unit) : typed.text;
}

std::string figure_text(const Ratio& value, UnitId unit, const JobMarks& marks) {
  auto text = exact_decimal(value);
  if (!text) return with_symbol(to_text(value.numerator()) + "/" + to_text(value.denominator()), unit);
  constexpr std::size_t kGroup = 3;
  const std::size_t mark = text->find('.');
  if (mark != std::string::npos && text->size() - mark - 1 == kGroup) *text += '0';
  if (marks.decimal_mark == DecimalMark::comma) std::replace(text->begin(), text->end(), '.', ',');
  return with_symbol(*text, unit);
}

}  // namespace fettle
