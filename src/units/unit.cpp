#include "units/unit.h"

#include <string>
#include <unordered_map>

#include "base/assertion.h"

namespace fettle {
namespace {

Ratio whole(Int128 value) { return Ratio(value); }
Ratio over(Int128 numerator, Int128 denominator) { return Ratio::of(numerator, denominator); }

/// Factors are exact by definition (SI; 1 in = 25.4 mm, 1 lb = 0.45359237 kg, g = 9.80665 m/s²: NIST SP 811), except the
/// radian, whose π is cut at 17 digits.
std::vector<Unit> make_units() {
  using D = Dimension;
  using U = UnitId;
  const Ratio none;
  const Ratio pound_kg = over(45359237, 100000000);
  const Ratio gravity = over(980665, 100000);
  const Ratio pound_newton = pound_kg * gravity;
  const Ratio inch_m = over(254, 10000);
  return {
      {U::metre, D::length, "m", {"metre", "metres", "meter", "meters"}, true, whole(10'000'000'000), none},
      {U::centimetre, D::length, "cm", {"centimetre", "centimetres", "centimeter", "centimeters"}, false, whole(100'000'000), none},
      {U::millimetre, D::length, "mm", {"millimetre", "millimetres", "millimeter", "millimeters"}, false, whole(10'000'000), none},
      {U::micrometre, D::length, "µm", {"μm", "um", "micrometre", "micrometres", "micrometer", "micrometers", "micron", "microns"}, false, whole(10'000), none},
      {U::nanometre, D::length, "nm", {"nanometre", "nanometres", "nanometer", "nanometers"}, true, whole(10), none},
      {U::inch, D::length, "in", {"inch", "inches", "\"", "″", "”", "''", "in.", "Zoll"}, false, whole(254'000'000), none},
      {U::thou, D::length, "thou", {"thousandth of an inch", "thousandths of an inch", ".001 in", ".001\""}, false, whole(254'000), none},
      {U::inch_tenth, D::length, ".0001 in", {"tenth of a thou", "tenths of a thou", ".0001\"", "ten-thousandths of an inch"}, false, whole(25'400), none},
      {U::hundredth_mm, D::length, "1/100 mm", {"hundredth of a millimetre", "hundredths of a millimetre", "hundredths mm", "hundertstel mm", "hundertstelmillimeter", "0.01 mm", "0,01 mm"}, false, whole(100'000), none},
      {U::tenth_mm, D::length, "1/10 mm", {"tenth of a millimetre", "tenths of a millimetre", "tenths mm", "zehntel mm", "zehntelmillimeter", "0.1 mm", "0,1 mm"}, false, whole(1'000'000), none},

      {U::degree, D::angle, "°", {"deg", "degree", "degrees", "grad"}, false, whole(1), none},
      {U::arc_minute, D::angle, "′", {"'", "arcmin", "minute of arc", "minutes of arc", "winkelminuten"}, false, over(1, 60), none},
      {U::radian, D::angle, "rad", {"radian", "radians"}, false, over(57'295'779'513'082'321, 1'000'000'000'000'000), none},
      {U::celsius, D::temperature, "°C", {"C", "degC", "deg C", "° C", "ºC", "celsius"}, false, whole(1), none},
      {U::fahrenheit, D::temperature, "°F", {"F", "degF", "deg F", "° F", "ºF", "fahrenheit"}, false, over(5, 9), over(-160, 9)},
      {U::kelvin, D::temperature, "K", {"kelvin"}, false, whole(1), over(-27315, 100)},

      {U::newton, D::force, "N", {"newton", "newtons"}, true, whole(1), none},
      {U::kilonewton, D::force, "kN", {}, false, whole(1000), none},
      {U::pound_force, D::force, "lbf", {"pound-force", "pounds-force"}, false, pound_newton, none},
      {U::kilogram_force, D::force, "kgf", {"kp"}, false, gravity, none},
      {U::newton_metre, D::torque, "N·m", {"Nm", "N*m", "N m", "newton metre", "newton metres"}, true, whole(1), none},
      {U::pound_foot, D::torque, "lbf·ft", {"lb·ft", "lb ft", "lbf ft", "ft lb", "ft·lb", "ft-lb", "lb-ft", "lbf-ft", "lbft", "ftlb", "foot-pounds", "pound-feet"}, false, pound_newton * inch_m * whole(12), none},
      {U::pound_inch, D::torque, "lbf·in", {"lb·in", "lb in", "lbf in", "in lb", "in·lb", "in-lb", "lb-in", "lbf-in", "inch-pounds", "pound-inches"}, false, pound_newton * inch_m, none},
      {U::kilogram_metre, D::torque, "kgf·m", {"kg·m", "kgm", "mkg", "mkp", "kpm"}, false, gravity, none},

      {U::pascal, D::pressure, "Pa", {"pascal"}, true, whole(1), none},
      {U::kilopascal, D::pressure, "kPa", {}, false, whole(1000), none},
      {U::megapascal, D::pressure, "MPa", {"N/mm²", "N/mm2"}, true, whole(1'000'000), none},
      {U::bar, D::pressure, "bar", {"bars"}, false, whole(100'000), none},
      {U::psi, D::pressure, "psi", {"lbf/in²", "lbf/in2", "lb/in²"}, false, pound_newton / (inch_m * inch_m), none},
      {U::kilogram_per_square_centimetre, D::pressure, "kgf/cm²", {"kg/cm²", "kgf/cm2", "kg/cm2", "at"}, false, gravity * whole(10000), none},

      {U::cubic_centimetre, D::volume, "cm³", {"cm3", "cc", "ccm", "ml", "millilitre", "millilitres", "milliliter", "milliliters"}, false, whole(1000), none},
      {U::litre, D::volume, "L", {"l", "litre", "litres", "liter", "liters"}, true, whole(1'000'000), none},
      {U::cubic_inch, D::volume, "in³", {"in3", "cu in", "cu.in.", "cubic inch", "cubic inches", "cuin"}, false, over(16'387'064, 1000), none},

      {U::gram, D::mass, "g", {"gram", "grams", "gramm"}, true, whole(1), none},
      {U::kilogram, D::mass, "kg", {"kilogram", "kilograms"}, false, whole(1000), none},
      {U::ounce, D::mass, "oz", {"ounce", "ounces"}, false, pound_kg * whole(1000) / whole(16), none},
      {U::pound, D::mass, "lb", {"lbs", "pound", "pounds"}, false, pound_kg * whole(1000), none},

      {U::second, D::time, "s", {"sec", "second", "seconds", "sekunden"}, true, whole(1), none},
      {U::minute, D::time, "min", {"minute", "minutes", "minuten"}, false, whole(60), none},
      {U::hour, D::time, "h", {"hour", "hours", "hrs", "stunden"}, true, whole(3600), none},

      {U::piece, D::count, "pcs", {"pieces", "piece", "turns", "turn", "teeth", "stück"}, false, whole(1), none},
      {U::division, D::divisions, "div", {"divs", "division", "divisions", "teilstrich", "teilstriche", "skt"}, false, whole(1), none},
  };
}

/// Lower case of the ASCII letters only: no locale, and µ stays µ.
std::string lowered(std::string_view text) {
  std::string out(text);
  for (char& c : out) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return out;
}

struct SpellingTables {
  std::unordered_map<std::string, const Unit*> as_typed;  ///< of units whose case matters
  std::unordered_map<std::string, const Unit*> lowered;   ///< of all others
};

SpellingTables make_spelling_tables() {
  SpellingTables tables;
  for (const Unit& unit : all_units()) {
    const auto add = [&](std::string_view spelling) {
      if (unit.case_matters) {
        tables.as_typed.emplace(spelling, &unit);
      } else {
        tables.lowered.emplace(lowered(spelling), &unit);
      }
    };
    add(unit.symbol);
    for (auto each : unit.spellings) add(each);
  }
  return tables;
}

}  // namespace

const std::vector<Unit>& all_units() {
  static const std::vector<Unit> kUnits = make_units();
  return kUnits;
}

const Unit& unit_definition(UnitId id) {
  const auto& units = all_units();
  const auto index = static_cast<std::size_t>(id);
  FETTLE_ASSERT(index < units.size() && units[index].id == id, "unit table is not in the order of UnitId");
  return units[index];
}

const Unit* find_unit(std::string_view spelling) {
  // Thousands of readings ask for the same few spellings: both tables are made once.
  static const SpellingTables kTables = make_spelling_tables();
  if (const auto exact = kTables.as_typed.find(std::string(spelling)); exact != kTables.as_typed.end()) return exact->second;
  const auto lower = kTables.lowered.find(lowered(spelling));
  return lower == kTables.lowered.end() ? nullptr : lower->second;
}

std::string_view dimension_name(Dimension dimension) {
  switch (dimension) {
    case Dimension::length: return "length";
    case Dimension::angle: return "angle";
    case Dimension::temperature: return "temperature";
    case Dimension::force: return "force";
    case Dimension::torque: return "torque";
    case Dimension::pressure: return "pressure";
    case Dimension::volume: return "volume";
    case Dimension::mass: return "mass";
    case Dimension::time: return "time";
    case Dimension::count: return "count";
    case Dimension::divisions: return "divisions";
  }
  return "";
}

}  // namespace fettle
