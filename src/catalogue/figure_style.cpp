#include "catalogue/figure_style.h"

#include "units/length.h"
#include "units/print.h"

namespace fettle {
namespace {

constexpr int kRatioDecimals = 6;
constexpr int kNumberDecimals = 4;
constexpr int kForceDecimals = 2;
constexpr int kVolumeDecimals = 3;
constexpr int kAngleDecimals = 2;
constexpr int kRateDecimals = 3;
constexpr int kMassDecimals = 2;

/// To 0.1 kPa, or somewhat finer: a case test in bar reads 0.47.
int pressure_decimals(UnitId unit) {
  const double kilopascals = (unit_definition(unit).factor / unit_definition(UnitId::kilopascal).factor).to_double();
  return kilopascals > 500.0 ? 4 : kilopascals > 50.0 ? 3 : kilopascals > 5.0 ? 2 : kilopascals > 0.5 ? 1 : 0;
}

/// Of a quantity whose estimate is in its base unit.
FigureStyle in_unit_of(UnitId unit, int decimals) {
  const Unit& known = unit_definition(unit);
  const Ratio factor = Ratio(1) / known.factor;
  return {std::string(known.symbol), factor, factor.to_double(), decimals};
}

}  // namespace

FigureStyle usual_style(ResultDimension dimension, UnitId length_unit) {
  constexpr auto kCounts = static_cast<double>(Length::kCountsPerMillimetre);
  const Ratio counts(static_cast<Int128>(Length::kCountsPerMillimetre));
  switch (dimension) {
    case ResultDimension::length: {
      FigureStyle out = in_unit_of(length_unit, fine_decimals(length_unit));
      out.estimate_factor *= kCounts;  // estimates are in mm
      return out;
    }
    case ResultDimension::ratio: return {"1", Ratio(1), 1.0, kRatioDecimals};
    case ResultDimension::number: return {"1", Ratio(1), 1.0, kNumberDecimals};
    case ResultDimension::force: return in_unit_of(UnitId::newton, kForceDecimals);
    case ResultDimension::force_per_length: return {"N/mm", counts, 1.0, kRateDecimals};
    case ResultDimension::volume: return in_unit_of(UnitId::cubic_centimetre, kVolumeDecimals);
    case ResultDimension::angle: return in_unit_of(UnitId::degree, kAngleDecimals);
    case ResultDimension::mass: return in_unit_of(UnitId::gram, kMassDecimals);
    case ResultDimension::pressure: return in_unit_of(UnitId::kilopascal, pressure_decimals(UnitId::kilopascal));
  }
  return {"1", Ratio(1), 1.0, kRatioDecimals};
}

FigureStyle style_as_typed(ResultDimension dimension, UnitId length_unit, UnitId typed) {
  switch (dimension) {
    case ResultDimension::force: return in_unit_of(typed, kForceDecimals);
    case ResultDimension::volume: return in_unit_of(typed, kVolumeDecimals);
    case ResultDimension::angle: return in_unit_of(typed, kAngleDecimals);
    case ResultDimension::mass: return in_unit_of(typed, kMassDecimals);
    case ResultDimension::pressure: return in_unit_of(typed, pressure_decimals(typed));
    case ResultDimension::length:
    case ResultDimension::ratio:
    case ResultDimension::number:
    case ResultDimension::force_per_length: break;
  }
  return usual_style(dimension, length_unit);
}

FigureStyle style_read(Dimension quantity, UnitId length_unit) {
  switch (quantity) {
    case Dimension::length: return usual_style(ResultDimension::length, length_unit);
    case Dimension::angle: return usual_style(ResultDimension::angle, length_unit);
    case Dimension::force: return usual_style(ResultDimension::force, length_unit);
    case Dimension::volume: return usual_style(ResultDimension::volume, length_unit);
    case Dimension::torque: return in_unit_of(UnitId::newton_metre, kForceDecimals);
    case Dimension::pressure: return in_unit_of(UnitId::kilopascal, pressure_decimals(UnitId::kilopascal));
    case Dimension::mass: return in_unit_of(UnitId::gram, kMassDecimals);
    case Dimension::temperature:
    case Dimension::time:
    case Dimension::count:
    case Dimension::divisions: break;
  }
  return usual_style(ResultDimension::number, length_unit);
}

std::string shown(const Ratio& exact, const FigureStyle& style) { return (exact * style.exact_factor).decimal(style.decimals); }

std::string shown(double estimate, const FigureStyle& style) { return print_fixed(estimate * style.estimate_factor, style.decimals); }

}  // namespace fettle
