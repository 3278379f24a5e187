#include "limits/sheet_fit.h"

#include <algorithm>

namespace fettle {
namespace {

constexpr int kMillimetreDecimals = 4;  // the grid of the standard is half a micrometre at its finest

Printed millimetres(const Length& size) {
  TypedQuantity out{};
  const Ratio value = size.ratio() / Ratio(Length::kCountsPerMillimetre);
  int decimals = 3;
  while (decimals < kMillimetreDecimals && !(value * Ratio::power_of_ten(decimals)).is_whole()) ++decimals;
  out.quantity = {value, UnitId::millimetre};
  out.decimals = decimals;
  out.text = value.decimal(decimals) + " mm";
  Printed printed;
  printed.metric = std::move(out);
  return printed;
}

}  // namespace

Result<IsoFit> read_sheet_fit(const std::string& text, const Place& place) {
  // The code begins at the last blank that is not beside a stroke, or where letters follow the figure.
  auto at = text.find_last_of(' ');
  while (at != std::string::npos && at > 0 && (text[at - 1] == '/' || text[at + 1] == '/')) at = text.find_last_of(' ', at - 1);
  if (at == std::string::npos) at = text.find_first_not_of("0123456789.,");
  const std::string size = text.substr(0, at);
  if (at == std::string::npos || size.find_first_of("0123456789") == std::string::npos) return Problem{"limits.fit_no_size", place, {verbatim("text", text)}};
  const auto typed = read_quantity(size, {UnitId::millimetre, Dimension::length, DecimalMark::point, {}, false, {}}, place);
  if (!typed.ok()) return typed.problems();
  const auto nominal = exact_length(typed.value().quantity);
  if (!nominal) return Problem{"limits.fit_no_size", place, {verbatim("text", text)}};
  return read_iso_fit(text.substr(at), *nominal, place);
}

PrintedRange fresh_by_fit(const IsoFit& fit, Feature feature) {
  const auto sizes = [&](const std::optional<IsoClass>& one) {
    return one ? PrintedRange{millimetres(fit.nominal + one->lower), millimetres(fit.nominal + one->upper)} : PrintedRange{};
  };
  switch (feature) {
    case Feature::inside: return sizes(fit.hole);
    case Feature::outside: return sizes(fit.shaft);
    case Feature::figure: {
      const auto play = play_of(fit);
      return play ? PrintedRange{millimetres(play->least), millimetres(play->most)} : PrintedRange{};
    }
  }
  return {};
}

}  // namespace fettle
