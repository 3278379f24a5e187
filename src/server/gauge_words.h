#pragma once

#include <string>

#include "app/gauge_state.h"
#include "server/page_words.h"

namespace fettle {

// How pages speak of gauges and settings.

/// "dial bore gauge, 0.001 mm dial (bore-gauge)"
[[nodiscard]] std::string gauge_name(const GaugeNow& gauge, const PageWords& words);
[[nodiscard]] std::string gauge_name(const Gauge& gauge, const PageWords& words);
[[nodiscard]] std::string gauge_sort_name(GaugeSort sort);
/// "div", "mm", "N"
[[nodiscard]] std::string gauge_unit_name(UnitId unit);
/// "0.001 mm a division · pressed in ↻"
[[nodiscard]] std::string gauge_words(const GaugeNow& gauge, UnitId unit, const PageWords& words);
/// "1 div 0.001 mm · ↻ = smaller"
/// `unit`: in which a direct gauge is read; nothing: nobody has said it yet.
[[nodiscard]] std::string gauge_strip(const GaugeNow& gauge, std::optional<UnitId> unit, const PageWords& words);
/// "set 12 minutes ago on mic-3-4 at 3.307 in"
[[nodiscard]] std::string setting_words(const SettingNow& setting, const PageWords& words);
[[nodiscard]] SettingStrip setting_strip(const SettingNow& setting, const PageWords& words);
/// "zeros 0, ↺1, 0"
[[nodiscard]] std::string zero_words(const Setting& setting, const PageWords& words);
[[nodiscard]] std::string opening_words(const Setting& setting, const PageWords& words);
[[nodiscard]] Message not_set_message(const GaugeNow& gauge);

/// ↻ or ↺.
[[nodiscard]] std::string needle_sign(NeedleSide side);
/// "88 ↺", "1 turn and 12 ↻", "0"
[[nodiscard]] std::string needle_text(const NeedlePlace& place, int decimals, const PageWords& words);
/// A place as a proof asks for it: "101 or 102 divisions ↺".
[[nodiscard]] std::string needle_text(const NeedleBetween& place, const PageWords& words);
/// A length without the zeros behind its figures: "0.001", "78".
[[nodiscard]] std::string short_length(const Ratio& counts, UnitId unit);
/// As books print it, to 0.001 mm or .0001 in at least: "78.000".
[[nodiscard]] std::string shop_length(const Ratio& counts, UnitId unit);

[[nodiscard]] GaugePage gauge_page(const std::vector<GaugeNow>& gauges, UnitId unit, const PageWords& words);

}  // namespace fettle
