#include "units/print.h"
#include "wire/json_text.h"
#include "wire/json_values.h"

namespace fettle {
namespace {

using json::Json;

/// The same as a person counts at the bench, see docs/COMMANDS.md.
constexpr int kZeros = 3;
constexpr int kZerosApart = 2;

class SettingUpWriter {
 public:
  SettingUpWriter(const SettingUp& from, UnitId unit) : from_(from), unit_(unit) {}

  [[nodiscard]] Json write() const {
    Json out = {{"format", "fettle-setting-up"}, {"version", 1}, {"gauge", from_.gauge}, {"master", from_.master}, {"kind", from_.kind}};
    if (from_.part) out["part"] = *from_.part;
    out["wanted"] = length(from_.wanted);
    if (from_.assembled) out["assembly"] = assembly(from_.assembled->best);
    if (from_.assembled && from_.assembled->next_best) out["next_best"] = assembly(*from_.assembled->next_best);
    out["master_setting"] = master_setting();
    out["zero"] = {{"times", kZeros}, {"divisions_apart_at_most", kZerosApart}};
    if (from_.pressed_in) out["pressed_in"] = json::side(*from_.pressed_in);
    if (from_.proof) out["proof"] = proof(*from_.proof);
    out["rule"] = {{"kind", std::string(rule_kind_name(from_.rule.kind))}, {"level", from_.rule.level.decimal(4)}};
    if (from_.doubt) out["doubt"] = doubt(*from_.doubt);
    out["step_known"] = from_.step_known;
    out["pointers"] = Json::array();
    for (const LimitPointer& each : from_.pointers) out["pointers"].push_back(pointer(each));
    return out;
  }

 private:
  [[nodiscard]] Json length(Length length) const { return json::length(length.ratio(), unit_); }
  static Json micrometres(Length length) { return json::length(length.ratio(), UnitId::micrometre); }

  [[nodiscard]] Json piece(const KitPiece& piece) const { return {{"text", piece.text}, {"length", length(piece.length)}}; }

  [[nodiscard]] Json assembly(const Assembly& assembly) const {
    Json out = {{"rod", piece(assembly.rod)}};
    if (assembly.extension) out["extension"] = piece(*assembly.extension);
    out["washers"] = Json::array();
    for (const KitPiece& each : assembly.washers) out["washers"].push_back(piece(each));
    out["reach"] = length(assembly.reach);
    out["pressed_in"] = length(assembly.pressed_in);
    out["left_for_larger"] = length(assembly.left_for_larger);
    out["left_for_smaller"] = length(assembly.left_for_smaller);
    out["in_the_span"] = assembly.in_the_span;
    return out;
  }

  static Json shown(const ThimblePlace& place) {
    return {{"value", place.digits}, {"unit", std::string(unit_definition(place.unit).symbol)}};
  }

  [[nodiscard]] Json thimble(const ThimblePlace& place) const {
    return {{"shown", shown(place)}, {"really_set", length(place.really_set)}, {"off", micrometres(place.off)}};
  }

  [[nodiscard]] Json master_setting() const {
    const Length off = from_.really_set - from_.wanted;
    Json out = {{"really_set", length(from_.really_set)}, {"off", micrometres(off)}};
    if (from_.tolerance) {
      out["tolerance"] = json::length(*from_.tolerance, unit_);
      out["share_of_tolerance"] = (absolute(off.ratio()) / *from_.tolerance).decimal(4);
    }
    if (from_.thimble) {
      out["thimble"] = {{"nearest", thimble(from_.thimble->nearest)},
                        {"below", thimble(from_.thimble->below)},
                        {"above", thimble(from_.thimble->above)}};
    }
    return out;
  }

  static Json needle(const NeedlePlace& place) {
    const NeedleBetween between = between_divisions(place);
    Json out = {{"turns", place.turns}, {"divisions", place.divisions.decimal(2)}, {"low", between.low}, {"high", between.high}};
    if (place.side) out["side"] = json::side(*place.side);
    return out;
  }

  static Json proof(const NeedleProof& proof) {
    return {{"opens", proof.opens},
            {"amount", shown(proof.amount)},
            {"from", shown(proof.from)},
            {"to", shown(proof.to)},
            {"right", needle(proof.right.exact)},
            {"reversed", needle(proof.reversed.exact)},
            {"half_division", needle(proof.half.exact)},
            {"twice_division", needle(proof.twice.exact)}};
  }

  [[nodiscard]] Json doubt(const ReadingDoubt& doubt) const {
    Json out = {{"standard_uncertainty", json::estimate(doubt.standard_uncertainty_mm, ResultDimension::length, unit_)}};
    if (doubt.degrees_of_freedom) out["degrees_of_freedom"] = print_fixed(*doubt.degrees_of_freedom, 1);
    out["guard"] = json::estimate(doubt.guard_mm, ResultDimension::length, unit_);
    return out;
  }

  [[nodiscard]] Json pointer(const LimitPointer& pointer) const {
    Json out = {{"limit", pointer.limit},
                {"definition", pointer.definition},
                {"role", std::string(role_name(pointer.role))},
                {"side", std::string(side_name(pointer.side))},
                {"rule_of_thumb", pointer.rule_of_thumb},
                {"bound", json::length(pointer.bound, unit_)},
                {"at_limit", needle(pointer.at_limit)}};
    if (pointer.guarded) out["guarded"] = needle(*pointer.guarded);
    out["in_travel"] = pointer.in_travel;
    return out;
  }

  const SettingUp& from_;
  UnitId unit_;
};

}  // namespace

std::string setting_up_json(const SettingUp& setting_up, UnitId unit) {
  return SettingUpWriter(setting_up, unit).write().dump(json::kIndent) + "\n";
}

}  // namespace fettle
