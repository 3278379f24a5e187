#include "units/exact_decimal.h"
#include "wire/json_text.h"
#include "wire/json_values.h"

namespace fettle {
namespace {

using json::Json;

/// Every digit: half a grain of the finest grade is 0.15 µm.
Json exact(Length length, UnitId unit) {
  const Unit& known = unit_definition(unit);
  return {{"value", exact_decimal(length.ratio() / known.factor).value()}, {"unit", std::string(known.symbol)}};
}

Json class_json(const IsoClass& each, Length nominal) {
  return {{"code", each.code},
          {"letters", each.letters},
          {"grade", grade_text(each.grade)},
          {"tolerance", exact(each.tolerance, UnitId::micrometre)},
          {"lower_deviation", exact(each.lower, UnitId::micrometre)},
          {"upper_deviation", exact(each.upper, UnitId::micrometre)},
          {"least_size", exact(nominal + each.lower, UnitId::millimetre)},
          {"largest_size", exact(nominal + each.upper, UnitId::millimetre)}};
}

}  // namespace

std::string iso_fit_json(const IsoFit& fit) {
  Json out = {{"format", "fettle-iso-fit"},
              {"version", 1},
              {"nominal", exact(fit.nominal, UnitId::millimetre)},
              {"over", exact(fit.step.over, UnitId::millimetre)},
              {"up_to", exact(fit.step.up_to, UnitId::millimetre)}};
  if (fit.hole) out["hole"] = class_json(*fit.hole, fit.nominal);
  if (fit.shaft) out["shaft"] = class_json(*fit.shaft, fit.nominal);
  if (const auto play = play_of(fit)) {
    out["play"] = {{"sort", std::string(sort_name(play->sort))},
                   {"least", exact(play->least, UnitId::micrometre)},
                   {"most", exact(play->most, UnitId::micrometre)}};
  }
  return out.dump(json::kIndent) + "\n";
}

}  // namespace fettle
