#include "entry/typed_unit.h"

#include <algorithm>

#include "entry/characters.h"
#include "entry/spell.h"

namespace fettle {
namespace {

enum class TradeWord { none, tenths, hundredths, mil };

TradeWord trade_word(const std::string& spelling) {
  const std::string word = ascii_lower(spelling);
  if (word == "tenth" || word == "tenths" || word == "zehntel") return TradeWord::tenths;
  if (word == "hundredth" || word == "hundredths" || word == "hundertstel") return TradeWord::hundredths;
  if (word == "mil" || word == "mils") return TradeWord::mil;
  return TradeWord::none;
}

/// Another number where the unit should stand: "84.02-84.04", "84.02 ± 0.01".
bool begins_like_number(const std::string& spelling) {
  const auto points = code_points(spelling);
  const char32_t first = points.front();
  if (is_digit(first) || is_fraction_sign(first) || first == U'±') return true;
  std::size_t next = 1;
  while (next < points.size() && points[next] == U' ') ++next;
  const bool sign_or_mark = first == U'-' || first == U'+' || first == U'.' || first == U',' || first == U'×' || first == U'*';
  return sign_or_mark && next < points.size() && (is_digit(points[next]) || points[next] == U'.' || points[next] == U',');
}

bool is_wanted(Dimension dimension, const TypingContext& context) {
  if (context.on_a_dial) return dimension == Dimension::length || dimension == Dimension::divisions;
  if (context.dimension) return dimension == *context.dimension;
  return !context.unit || unit_definition(*context.unit).dimension == dimension;
}

/// A word that would only lead to the next refusal is no help, so only units of the wanted dimension are offered.
std::optional<std::string> nearest_unit(const std::string& spelling, const TypingContext& context) {
  std::vector<std::string> known;
  for (const Unit& unit : all_units()) {
    if (!is_wanted(unit.dimension, context)) continue;
    known.emplace_back(unit.symbol);
    for (auto each : unit.spellings) known.emplace_back(each);
  }
  std::erase_if(known, [](const std::string& word) { return word.front() == '.' || is_digit(static_cast<unsigned char>(word.front())); });
  return nearest_word(spelling, known);
}

}  // namespace

const Unit* read_unit(const std::string& spelling, std::size_t at, const TypingContext& context, std::vector<TextFault>& faults) {
  const bool metric = context.trade_words == TradeWords::metric;
  const bool inch = context.trade_words == TradeWords::inch;
  switch (trade_word(spelling)) {
    case TradeWord::tenths:
      if (metric || inch) return &unit_definition(metric ? UnitId::tenth_mm : UnitId::inch_tenth);
      faults.push_back({"entry.trade_tenths", at, {verbatim("word", spelling)}});
      return nullptr;
    case TradeWord::hundredths:
      if (metric) return &unit_definition(UnitId::hundredth_mm);
      faults.push_back({"entry.trade_hundredths", at, {verbatim("word", spelling)}});
      return nullptr;
    case TradeWord::mil:
      faults.push_back({"entry.trade_mil", at, {}});
      return nullptr;
    case TradeWord::none: break;
  }
  if (begins_like_number(spelling)) {
    faults.push_back({"entry.two_numbers", at, {}});
    return nullptr;
  }
  if (const Unit* unit = find_unit(spelling)) return unit;
  if (const auto near = nearest_unit(spelling, context)) {
    faults.push_back({"entry.unknown_unit_near", at, {verbatim("unit", spelling), verbatim("near", *near)}});
  } else {
    faults.push_back({"entry.unknown_unit", at, {verbatim("unit", spelling)}});
  }
  return nullptr;
}

}  // namespace fettle
