#pragma once

#include <optional>
#include <string>
#include <vector>

#include "drawing/drawing.h"
#include "gauging/needle.h"
#include "text/sentence.h"
#include "verdict/setting_up.h"

namespace fettle {

/// A limit pointer of the dial, with the name that its limit goes by on the page.
struct PointerToDraw {
  std::string name;  ///< "service limit 78.100"
  NeedlePlace at_limit;
  std::optional<NeedlePlace> guarded;
  bool in_travel;
};

struct DialToDraw {
  Length division;
  std::optional<Length> turn;         ///< nothing: 100 divisions are drawn, and it is said that nobody knows
  UnitId unit;                        ///< of division and turn in the text equivalent
  std::optional<NeedlePlace> needle;  ///< nothing: at zero, hollow
  std::vector<PointerToDraw> pointers;
};

/// "88 ↺", "0", "1 + 12 ↻" for a whole turn more: where a needle stands, to the nearest half division.
[[nodiscard]] std::string needle_mark(const NeedlePlace& place, Language language);

/// From what set_up gives. `names`: one for each pointer.
[[nodiscard]] DialToDraw dial_of(const SettingUp& setting, const std::vector<std::string>& names, UnitId unit);

/// The dial as it is seen on the gauge, 320 wide: divisions, numbers, needle, the small hand that counts turns, each limit pointer
/// without and with guard band, labelled by needle place; below it a line for each. Needs names for all, a division and turn above
/// nothing, else InternalError.
[[nodiscard]] Drawing dial_picture(const DialToDraw& dial, Language language);

}  // namespace fettle
