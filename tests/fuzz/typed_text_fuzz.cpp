#include <cstddef>
#include <cstdint>
#include <string>

#include "entry/typed_quantity.h"
#include "text/sentence.h"
#include "units/unit.h"

namespace fettle {
namespace {

/// The first two bytes say what is known beforehand, six bits each ("@@" is nothing), the rest is the text.
constexpr std::size_t kHead = 2;

TypingContext context_of(unsigned bits) {
  constexpr UnitId kUnits[] = {UnitId::millimetre, UnitId::inch, UnitId::division, UnitId::micrometre};
  TypingContext context{{}, {}, {}, {}, false, {}};
  if ((bits & 0x01U) != 0) context.unit = kUnits[(bits >> 1U) & 3U];
  if ((bits & 0x08U) != 0) context.dimension = (bits & 0x10U) != 0 ? Dimension::length : Dimension::temperature;
  if ((bits & 0x20U) != 0) context.decimal_mark = (bits & 0x40U) != 0 ? DecimalMark::point : DecimalMark::comma;
  if ((bits & 0x80U) != 0) context.trade_words = (bits & 0x100U) != 0 ? TradeWords::inch : TradeWords::metric;
  context.on_a_dial = (bits & 0x200U) != 0;
  if ((bits & 0x400U) != 0) context.plus_means = (bits & 0x800U) != 0 ? NeedleSide::clockwise : NeedleSide::anticlockwise;
  return context;
}

void read_and_say(const std::string& text, const TypingContext& context) {
  const Result<TypedQuantity> read = read_quantity(text, context, {"f", 1, 1});
  if (read.ok()) {
    (void)exact_length(read.value().quantity);
    return;
  }
  for (const Problem& problem : read.problems()) {
    for (Language language : {Language::english, Language::german}) {
      FETTLE_ASSERT(has_key("problem." + problem.code, language) && has_key("problem." + problem.code + ".do", language), problem.code);
      (void)sentence(problem, language);
    }
  }
}

}  // namespace
}  // namespace fettle

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size < fettle::kHead) return 0;
  const unsigned bits = (data[0] & 63U) | ((data[1] & 63U) << 6U);
  fettle::read_and_say(std::string(data + fettle::kHead, data + size), fettle::context_of(bits));
  return 0;
}
