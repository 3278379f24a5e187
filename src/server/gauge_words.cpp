#include "server/gauge_words.h"

#include <algorithm>

namespace fettle {
namespace {

std::string symbol_of(UnitId unit) { return std::string(unit_definition(unit).symbol); }

/// As it was typed, but for the word of its side, which is drawn: "1 acw" becomes "1 ↺".
std::string zero_text(const TypedQuantity& zero) {
  if (!zero.side || zero.quantity.value.sign() == 0) return zero.quantity.value.sign() == 0 ? "0" : zero.text;
  constexpr int kMostDecimals = 3;
  const Ratio divisions = absolute(zero.quantity.value);
  int decimals = 0;
  while (decimals < kMostDecimals && !(divisions * Ratio::power_of_ten(decimals)).is_whole()) ++decimals;
  return divisions.decimal(decimals) + " " + needle_sign(*zero.side);
}

}  // namespace

std::string needle_sign(NeedleSide side) {
  switch (side) {
    case NeedleSide::clockwise: return "↻";
    case NeedleSide::anticlockwise: return "↺";
  }
  return "";
}

std::string short_length(const Ratio& counts, UnitId unit) {
  std::string out = in_unit(counts, unit, fine_decimals(unit) + 1);
  if (out.find('.') == std::string::npos) return out;
  while (out.back() == '0') out.pop_back();
  if (out.back() == '.') out.pop_back();
  return out;
}

std::string shop_length(const Ratio& counts, UnitId unit) {
  std::string out = short_length(counts, unit);
  const std::size_t least = unit == UnitId::inch ? 4 : 3;
  if (out.find('.') == std::string::npos) out += '.';
  const std::size_t decimals = out.size() - out.find('.') - 1;
  return out + std::string(least - std::min(least, decimals), '0');
}

std::string gauge_name(const Gauge& gauge, const PageWords& words) {
  return words.say(Message{"gauge_name", {word("preset", "gauge_preset." + gauge.preset), verbatim("gauge", gauge.id)}});
}

std::string gauge_name(const GaugeNow& gauge, const PageWords& words) { return gauge_name(*gauge.gauge, words); }

std::string gauge_sort_name(GaugeSort sort) {
  switch (sort) {
    case GaugeSort::comparison: return "comparison";
    case GaugeSort::direct: return "direct";
    case GaugeSort::master: return "master";
  }
  return "";
}

std::string gauge_unit_name(UnitId unit) { return symbol_of(unit); }

std::string gauge_words(const GaugeNow& gauge, UnitId unit, const PageWords& words) {
  std::vector<Message> out;
  if (gauge.known && gauge.known->marked) {
    out.push_back({"gauge_words.marked", {decimal("size", short_length(gauge.known->marked->ratio(), unit), symbol_of(unit))}});
  }
  if (gauge.known && gauge.known->division) {
    out.push_back({"gauge_words.division", {decimal("division", short_length(gauge.known->division->ratio(), gauge.known->own_unit), symbol_of(gauge.known->own_unit))}});
  }
  if (gauge.sort == GaugeSort::comparison) {
    if (gauge.gauge->pressed_in) {
      out.push_back({"gauge_words.pressed_in", {verbatim("sign", needle_sign(*gauge.gauge->pressed_in))}});
    } else {
      out.push_back({"gauge_words.no_sense", {}});
    }
  }
  if (gauge.known && gauge.preset->serves_as && !gauge.known->zero_recorded && gauge.sort == GaugeSort::direct) out.push_back({"gauge_words.no_zero", {}});
  return words.joined_line(out, " · ");
}

std::string gauge_strip(const GaugeNow& gauge, std::optional<UnitId> unit, const PageWords& words) {
  std::vector<Message> out;
  if (gauge.sort != GaugeSort::comparison) return unit ? words.say(Message{"gauge_strip.direct", {verbatim("unit", symbol_of(*unit))}}) : words.say("gauge_strip.no_unit");
  if (gauge.known && gauge.known->division) {
    out.push_back({"gauge_strip.division", {decimal("division", short_length(gauge.known->division->ratio(), gauge.known->own_unit), symbol_of(gauge.known->own_unit))}});
  }
  if (gauge.gauge->pressed_in && gauge.preset->touches) {
    const bool larger = size_per_clockwise(*gauge.preset->touches, *gauge.gauge->pressed_in) > 0;
    out.push_back({"gauge_strip.sense", {verbatim("sign", needle_sign(NeedleSide::clockwise)), word("way", larger ? "way.larger" : "way.smaller")}});
  }
  return words.joined_line(out, " · ");
}

std::string setting_words(const SettingNow& setting, const PageWords& words) {
  const Setting& from = setting.setting->value;
  std::vector<Argument> arguments = {verbatim("gauge", from.gauge)};
  arguments.push_back(setting.age_minutes ? list("ago", {ago(*setting.age_minutes)}) : word("ago", "setting_words.no_age"));
  if (!from.master) return words.say(Message{"setting_words.taken_to_hand", std::move(arguments)});
  arguments.push_back(verbatim("master", *from.master));
  if (from.locked_on) {
    arguments.push_back(verbatim("part", *from.locked_on));
    return words.say(Message{"setting_words.locked", std::move(arguments)});
  }
  if (!from.set) return words.say(Message{"setting_words.on_master", std::move(arguments)});
  arguments.push_back(verbatim("set", words.number(from.set->text)));
  return words.say(Message{"setting_words.at", std::move(arguments)});
}

SettingStrip setting_strip(const SettingNow& setting, const PageWords& words) {
  std::vector<Message> why = setting.why_stale;
  if (setting.closed) why.insert(why.begin(), Message{"setting_now.closed", {}});
  return {setting.setting->value.id, setting_words(setting, words), setting.age_minutes, !why.empty(), words.line_or_none(why)};
}

std::string opening_words(const Setting& setting, const PageWords& words) {
  std::string zeros;
  if (setting.opening_zeros) {
    for (const TypedQuantity& each : *setting.opening_zeros) zeros += (zeros.empty() ? "" : ", ") + zero_text(each);
  } else {
    zeros = setting.opening_zero ? zero_text(*setting.opening_zero) : "0";
  }
  return words.say(Message{"zero_words.opening", {verbatim("zeros", zeros)}});
}

std::string zero_words(const Setting& setting, const PageWords& words) {
  if (!setting.master) return "";
  std::string out = opening_words(setting, words);
  if (setting.closing_zero) out += " · " + words.say(Message{"zero_words.closing", {verbatim("zero", zero_text(*setting.closing_zero))}});
  return out;
}

Message not_set_message(const GaugeNow& gauge) {
  return {gauge.sort == GaugeSort::comparison ? "gauge_words.not_set" : gauge.sort == GaugeSort::master ? "gauge_words.lends" : "gauge_words.not_used", {}};
}

std::string needle_text(const NeedlePlace& place, int decimals, const PageWords& words) {
  if (!place.side) return "0";
  const std::string there = words.number(place.divisions.decimal(decimals)) + " " + needle_sign(*place.side);
  if (place.turns == 0) return there;
  return words.say(Message{"needle_text.turns", {count("turns", place.turns), verbatim("place", there)}});
}

std::string needle_text(const NeedleBetween& place, const PageWords& words) {
  if (!place.exact.side) return words.say("needle_text.zero");
  std::string out = words.say(Message{place.low == place.high ? "needle_text.on" : "needle_text.between",
                                      {count("low", place.low), count("high", place.high), verbatim("sign", needle_sign(*place.exact.side))}});
  if (place.exact.turns == 0) return out;
  return words.say(Message{"needle_text.turns", {count("turns", place.exact.turns), verbatim("place", out)}});
}

GaugePage gauge_page(const std::vector<GaugeNow>& gauges, UnitId unit, const PageWords& words) {
  GaugePage out;
  for (const GaugeNow& each : gauges) {
    GaugePage::Gauge gauge{each.gauge->id, gauge_name(each, words), gauge_sort_name(each.sort), gauge_unit_name(each.unit), gauge_words(each, unit, words), !each.why_not, {}, {}};
    if (each.why_not) gauge.why_not = words.say(*each.why_not);
    if (each.setting) gauge.setting = GaugePage::Setting{setting_strip(*each.setting, words), zero_words(each.setting->setting->value, words), each.setting->round};
    out.gauges.push_back(std::move(gauge));
  }
  return out;
}

}  // namespace fettle
