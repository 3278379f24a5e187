#include "verdict/setting_up.h"

#include <cmath>

#include "base/assertion.h"
#include "numeric/student_t.h"
#include "numeric/uncertainty.h"

namespace fettle {
namespace {

constexpr const char* kHere = "setting-up";

Ratio floor_of(const Ratio& value) {
  Int128 whole = value.numerator() / value.denominator();
  if (value.sign() < 0 && !value.is_whole()) --whole;
  return Ratio(whole);
}

class SetUp {
 public:
  SetUp(const SettingUpInput& input, const KnownGauge& gauge, const KnownGauge& master) : input_(input), gauge_(gauge), master_(master) {}

  Result<SettingUp> run() {
    out_.gauge = gauge_.id;
    out_.master = master_.id;
    out_.kind = input_.part.part.kind;
    out_.part = input_.part_id;
    out_.wanted = input_.wanted;
    out_.tolerance = input_.tolerance;
    out_.turn = gauge_.turn;
    out_.pressed_in = gauge_.pressed_in;
    out_.step_known = input_.step_known;
    out_.rule = input_.rule;
    out_.division = *gauge_.division;
    out_.thimble = thimble_choice(master_, input_.wanted);
    if (out_.thimble && input_.set) out_.locked = thimble_place(master_, input_.set->ratio() / master_.division->ratio(), input_.wanted);
    out_.really_set = out_.thimble ? stands().really_set : *master_.marked;
    put_together();
    if (problems_.empty() && gauge_.pressed_in) {
      prove();
      point();
    }
    if (!problems_.empty()) return std::move(problems_);
    return std::move(out_);
  }

 private:
  /// For a ring the contact must be pressed in as it should in the ring as well.
  void put_together() {
    if (!gauge_.kit) return;
    out_.assembled = take(assemble(*gauge_.kit, input_.wanted, gauge_.id, input_.shown), problems_);
    if (!out_.assembled) return;
    const Length pressed = pressed_in_master();
    if (pressed >= gauge_.kit->least_pressed && pressed <= gauge_.kit->travel) return;
    problems_.push_back(Problem{"verdict.master_out_of_travel", {},
                                {verbatim("master", master_.id), verbatim("gauge", gauge_.id),
                                 length_argument("size", out_.really_set.ratio(), input_.shown, fine_decimals(input_.shown)),
                                 length_argument("wanted", out_.wanted.ratio(), input_.shown, fine_decimals(input_.shown))}});
  }

  /// Where the thimble stands.
  [[nodiscard]] const ThimblePlace& stands() const { return out_.locked ? *out_.locked : out_.thimble->nearest; }

  [[nodiscard]] Length pressed_in_master() const { return out_.assembled->best.reach - out_.really_set; }

  void prove() {
    if (!out_.thimble) return;
    ProofInput input{gauge_, master_, stands(), std::nullopt, std::nullopt};
    if (out_.assembled) {
      input.may_come_out = pressed_in_master() - gauge_.kit->least_pressed;
      input.may_go_in = gauge_.kit->travel - pressed_in_master();
    }
    out_.proof = prove_needle(input);
  }

  /// One reading at zero on the part, through the same stage as every reading.
  void weigh_one_reading() {
    Setting setting{kHere, gauge_.id, master_.id, {}, {}, {}, {}, {}, {}, {}};
    if (out_.thimble) setting.set = exactly(stands().shown.ratio() / Ratio(Length::kCountsPerMillimetre), UnitId::millimetre);
    const Layout& layout = input_.part.layout;
    const Reading reading{input_.part.part.id, layout.stations.front().id, layout.directions.front().id, exactly(Ratio(), UnitId::division),
                          kHere, "", {}, {}, {}, ReadingFlag::none, "", {}};
    const std::vector<PartOnBench> parts = {input_.part};
    const std::vector<Kept<Gauge>> gauges = {{kHere, input_.gauge}, {kHere, input_.master}};
    const std::vector<Kept<Setting>> settings = {{kHere, setting}};
    const std::vector<Kept<Reading>> readings = {{kHere, reading}};
    const Gauged gauged = sizes_from(
        {parts, gauges, settings, readings, {}, input_.presets, input_.temperature, input_.gauge_expansion_per_celsius});
    problems_.insert(problems_.end(), gauged.problems.begin(), gauged.problems.end());
    if (!problems_.empty()) return;
    FETTLE_ASSERT(gauged.set.sizes.size() == 1, std::to_string(gauged.set.sizes.size()));
    std::vector<UncertaintyTerm> terms;
    for (const ErrorTerm& term : gauged.set.sizes.front().terms) {
      const ErrorSource& source = gauged.set.sources[term.source];
      terms.push_back({term.coefficient, source.standard_uncertainty, source.degrees_of_freedom});
    }
    const CombinedUncertainty combined = combine_uncertainty(terms);
    const double quantile = student_t_quantile(input_.rule.level.to_double(), combined.effective_degrees_of_freedom);
    out_.doubt = ReadingDoubt{combined.standard_uncertainty, combined.effective_degrees_of_freedom, quantile * combined.standard_uncertainty};
  }

  static TypedQuantity exactly(const Ratio& value, UnitId unit) { return {value.decimal(7), {value, unit}, 0, std::nullopt, {}}; }

  void point() {
    weigh_one_reading();
    if (!problems_.empty()) return;
    for (const PointerLimit& each : input_.limits) out_.pointers.push_back(pointer(each));
  }

  [[nodiscard]] NeedlePlace place(const Ratio& deviation) const {
    const int sense = size_per_clockwise(*gauge_.preset->touches, *gauge_.pressed_in);
    return needle_place(deviation, *gauge_.division, gauge_.turn, sense);
  }

  [[nodiscard]] LimitPointer pointer(const PointerLimit& each) const {
    const Ratio deviation = each.bound - out_.really_set.ratio();
    LimitPointer out{each.limit.id, each.limit.definition, each.limit.role, each.limit.side, each.limit.origin.rule_of_thumb, each.bound, place(deviation), std::nullopt, in_travel(each.bound)};
    switch (input_.rule.kind) {
      case RuleKind::reading: break;
      case RuleKind::probability: out.guarded = place(guarded(deviation, each.limit.side)); break;
    }
    return out;
  }

  /// The guard is rounded up to a whole count of 0.1 nm, the place to a whole division, both to the good side of the limit.
  [[nodiscard]] Ratio guarded(const Ratio& deviation, LimitSide side) const {
    const auto guard = static_cast<Int128>(std::ceil(out_.doubt->guard_mm * static_cast<double>(Length::kCountsPerMillimetre)));
    const Ratio division = gauge_.division->ratio();
    switch (side) {
      case LimitSide::at_most: return floor_of((deviation - Ratio(guard)) / division) * division;
      case LimitSide::at_least: return -(floor_of((-deviation - Ratio(guard)) / division) * division);
    }
    return deviation;
  }

  [[nodiscard]] bool in_travel(const Ratio& bound) const {
    if (!out_.assembled) return true;
    const Ratio pressed = out_.assembled->best.reach.ratio() - bound;
    return pressed >= gauge_.kit->least_pressed.ratio() && pressed <= gauge_.kit->travel.ratio();
  }

  const SettingUpInput& input_;
  const KnownGauge& gauge_;
  const KnownGauge& master_;
  SettingUp out_{};
  Problems problems_;
};

}  // namespace

Result<SettingUp> set_up(const SettingUpInput& input) {
  Problems problems;
  const auto gauge = take(know_gauge(input.gauge, input.presets, place_of(input.gauge)), problems);
  const auto master = take(know_gauge(input.master, input.presets, place_of(input.master)), problems);
  if (!problems.empty()) return problems;
  FETTLE_ASSERT(gauge->division && gauge->preset->touches == input.part.feature, input.gauge.id);
  FETTLE_ASSERT(master->marked || master->division, input.master.id);
  return SetUp(input, *gauge, *master).run();
}

}  // namespace fettle
