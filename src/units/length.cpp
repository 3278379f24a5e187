#include "units/length.h"

#include "base/assertion.h"

namespace fettle {

std::string in_unit(const Ratio& counts, UnitId unit, int decimals) {
  const Unit& definition = unit_definition(unit);
  FETTLE_ASSERT(definition.dimension == Dimension::length, std::string(definition.symbol));
  return (counts / definition.factor).decimal(decimals);
}

Argument length_argument(std::string name, const Ratio& counts, UnitId unit, int decimals) {
  return decimal(std::move(name), in_unit(counts, unit, decimals), std::string(unit_definition(unit).symbol));
}

int fine_decimals(UnitId unit) {
  if (unit == UnitId::inch) return 5;
  if (unit == UnitId::micrometre) return 1;
  if (unit == UnitId::thou) return 2;
  return 4;
}

}  // namespace fettle
