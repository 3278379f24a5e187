#pragma once

#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"
#include "units/quantity.h"

namespace fettle {

enum class NeedleSide { clockwise, anticlockwise };
enum class DecimalMark { point, comma };
/// What "tenths" and "hundredths" alone mean in this shop: inch: a tenth is 0.0001 in ("hundredths" stays refused);
/// metric: 0.1 mm and 0.01 mm.
enum class TradeWords { inch, metric };

/// What is known before a text is read. Everything left out is "not known", and a text that hangs on it is refused.
struct TypingContext {
  std::optional<UnitId> unit;              ///< of the column or the gauge; used when the text has no unit of its own
  std::optional<Dimension> dimension;      ///< the dimension that is wanted here
  std::optional<DecimalMark> decimal_mark; ///< as the job states it
  std::optional<TradeWords> trade_words;   ///< as the job states it
  bool on_a_dial;                          ///< a deviation read off a dial: every value but zero needs a needle side
  std::optional<NeedleSide> plus_means;    ///< on a dial: which side a bare + is, as the setting states it
};

/// A text, what it was understood as, and where it stood.
struct TypedQuantity {
  std::string text;      ///< exactly as typed
  Quantity quantity;     ///< on a dial: clockwise counts positive
  int decimals;          ///< figures behind the decimal mark as typed; a fraction gives none
  std::optional<NeedleSide> side;  ///< on a dial, unless zero
  Place place;
  /// Where it was typed is not part of what was typed: the same event read from another line is the same event.
  bool operator==(const TypedQuantity& other) const {
    return text == other.text && quantity == other.quantity && decimals == other.decimals && side == other.side;
  }
};

/// The exact length of what was typed; nothing where nothing was typed, or no length.
[[nodiscard]] inline std::optional<Length> exact_length(const std::optional<TypedQuantity>& typed) {
  return typed ? exact_length(typed->quantity) : std::nullopt;
}

/// The line of the first of these that was typed, without a column: for a problem of the whole entry they belong to.
[[nodiscard]] Place first_line(std::initializer_list<const std::optional<TypedQuantity>*> typed);

/// Reads one quantity as a person types it. Never a guess: gives every problem that the text has.
[[nodiscard]] Result<TypedQuantity> read_quantity(std::string_view text, const TypingContext& context, const Place& place);

}  // namespace fettle
