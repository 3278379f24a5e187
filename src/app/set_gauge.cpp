#include "app/set_gauge.h"

#include <algorithm>

#include "app/bench.h"
#include "base/joined.h"

namespace fettle {
namespace {

bool in_range(const KnownGauge& gauge, Length shown) {
  return (!gauge.preset->range_from || shown >= *gauge.preset->range_from) && (!gauge.preset->range_to || shown <= *gauge.preset->range_to);
}

/// The gauge can lend this size: a ring that is marked, a micrometer in whose range it lies.
bool lends(const KnownGauge& gauge, Length size) {
  if (!gauge.preset->serves_as) return false;
  if (gauge.marked) return true;
  const auto choice = thimble_choice(gauge, size);
  if (!choice) return false;
  return in_range(gauge, choice->nearest.shown);
}

class GaugeSetter {
 public:
  GaugeSetter(const Job& job, const SetGaugeAsked& asked) : job_(job), asked_(asked) {}

  Result<SettingUp> run() {
    const Gauge* gauge = find_gauge();
    std::optional<PartOnBench> part = find_part();
    if (gauge == nullptr || !part) return std::move(problems_);
    refuse_wrong_feature(*gauge, *part);
    const auto wanted = wanted_size(*part);
    if (!wanted || !problems_.empty()) return std::move(problems_);
    const Gauge* master = find_master(*wanted);
    if (master == nullptr) return std::move(problems_);
    const auto set = really_set(*master);
    if (!problems_.empty()) return std::move(problems_);
    const auto part_id = named_part_ == nullptr ? std::nullopt : std::optional(named_part_->id);
    const bool step_known = part->part.step.kind != StepKind::unknown;
    return set_up({*gauge, *master, *part, part_id, *wanted, new_tolerance(job_, part->part.kind), step_known,
                   step_known ? size_limits(*part) : std::vector<PointerLimit>(), job_.rule, shown(), known_.gauge_presets,
                   known_.temperature, gauge_expansion(known_), set});
  }

  std::optional<Length> size() {
    const std::optional<PartOnBench> part = find_part();
    return part ? wanted_size(*part) : std::nullopt;
  }

 private:
  void add(std::string code, std::vector<Argument> arguments) { problems_.push_back({std::move(code), {}, std::move(arguments)}); }

  [[nodiscard]] UnitId shown() const { return job_.opened ? job_.opened->value.shown_unit : UnitId::millimetre; }

  std::optional<KnownGauge> known(const Gauge& gauge) { return take(know_gauge(gauge, known_.gauge_presets, place_of(gauge)), problems_); }

  const Gauge* gauge_of(const std::string& id, const char* code) {
    std::vector<std::string> ids;
    for (const auto& kept : job_.gauges) {
      if (kept.value.id == id) return &kept.value;
      ids.push_back(kept.value.id);
    }
    add(code, {verbatim("gauge", id), verbatim("known", joined(ids))});
    return nullptr;
  }

  const Gauge* find_gauge() {
    const Gauge* gauge = gauge_of(asked_.gauge, "app.set_unknown_gauge");
    if (gauge == nullptr) return nullptr;
    const auto found = known(*gauge);
    if (!found) return nullptr;
    if (found->preset->action != GaugeAction::comparison || !found->preset->touches) {
      add("app.set_not_a_comparison", {verbatim("gauge", gauge->id)});
      return nullptr;
    }
    return gauge;
  }

  /// The named part, or the first of the kind, or one of the kind's own that nobody has entered yet.
  std::optional<PartOnBench> find_part() {
    for (const auto& kept : job_.parts) {
      if (kept.value.id != asked_.what_for) continue;
      named_part_ = &kept.value;
      return on_bench(job_, kept.value, known_);
    }
    if (known_.kind(asked_.what_for) != nullptr) {
      return on_bench(job_, {asked_.what_for, asked_.what_for, "", {}, {StepKind::standard, {}, ""}, Condition::worn}, known_);
    }
    std::vector<std::string> names;
    for (const auto& kept : job_.parts) names.push_back(kept.value.id);
    for (const Kind& each : known_.kinds) names.push_back(each.id);
    add("app.set_for_unknown", {verbatim("text", asked_.what_for), verbatim("known", joined(names))});
    return std::nullopt;
  }

  void refuse_wrong_feature(const Gauge& gauge, const PartOnBench& part) {
    const auto found = known(gauge);
    if (!found || found->preset->touches == part.feature) return;
    add("gauging.wrong_feature", {verbatim("gauge", gauge.id), verbatim("part", part.part.id),
                                  word("touches", "feature." + std::string(feature_name(*found->preset->touches)))});
  }

  std::optional<Length> typed_size(const std::string& text) {
    std::optional<DecimalMark> mark;
    std::optional<TradeWords> words;
    if (job_.opened) mark = job_.opened->value.decimal_mark;
    if (job_.opened) words = job_.opened->value.trade_words;
    const auto typed = take(read_quantity(text, {std::nullopt, Dimension::length, mark, words, false, std::nullopt}, {}), problems_);
    const auto size = exact_length(typed);
    if (typed && (!size || size->counts() <= 0)) add("app.set_size_positive", {verbatim("text", text)});
    return size && size->counts() > 0 ? size : std::nullopt;
  }

  /// A ring is as it is marked, whatever is typed.
  std::optional<Length> really_set(const Gauge& gauge) {
    const auto master = known(gauge);
    if (!asked_.set || !master || master->marked) return std::nullopt;
    const auto set = typed_size(*asked_.set);
    if (!set || in_range(*master, *set)) return set;
    add("app.set_master_unfit", {verbatim("master", gauge.id), length_argument("size", set->ratio(), shown(), fine_decimals(shown()))});
    return std::nullopt;
  }

  std::optional<Length> wanted_size(const PartOnBench& part) {
    if (asked_.size) return typed_size(*asked_.size);
    if (part.part.step.kind == StepKind::unknown) {
      add("app.set_step_unknown", {verbatim("part", part.part.id)});
      return std::nullopt;
    }
    const auto standard = standard_size(part);
    if (!standard) {
      add("app.set_no_size", {verbatim("kind", part.part.kind)});
      return std::nullopt;
    }
    return *standard + exact_length(part.part.step.offset).value_or(Length());
  }

  /// What the limits call the standard size; else the end of the new tolerance that has most metal.
  [[nodiscard]] std::optional<Length> standard_size(const PartOnBench& part) const {
    const MadeTo made = made_to(job_, part.part.kind);
    if (made.standard) return made.standard;
    switch (part.feature) {
      case Feature::inside: return made.smallest;
      case Feature::outside: return made.largest;
      case Feature::figure: break;  // no bore gauge is set for a gap
    }
    return std::nullopt;
  }

  const Gauge* find_master(Length wanted) {
    const Argument size = length_argument("size", wanted.ratio(), shown(), fine_decimals(shown()));
    if (asked_.master) {
      const Gauge* master = gauge_of(*asked_.master, "app.set_unknown_gauge");
      if (master == nullptr) return nullptr;
      const auto found = known(*master);
      if (found && lends(*found, wanted)) return master;
      if (found) add("app.set_master_unfit", {verbatim("master", master->id), size});
      return nullptr;
    }
    std::vector<std::string> ids;
    const Gauge* master = nullptr;
    for (const Gauge* each : masters_for(job_, wanted)) {
      ids.push_back(each->id);
      master = each;
    }
    if (ids.size() == 1) return master;
    add(ids.empty() ? "app.set_no_master" : "app.set_which_master", {size, verbatim("known", joined(ids))});
    return nullptr;
  }

  /// Limits of the size itself, at the part's step.
  [[nodiscard]] std::vector<PointerLimit> size_limits(const PartOnBench& part) const {
    std::vector<PointerLimit> out;
    const Length offset = exact_length(part.part.step.offset).value_or(Length());
    for (const auto& kept : job_.limits) {
      const Definition* definition = known_.definition(kept.value.definition);
      const bool about_size = definition != nullptr && definition->family == Family::size && definition->dimension == ResultDimension::length;
      if (kept.value.kind == part.part.kind && about_size) out.push_back({kept.value, bound_of(kept.value) + offset.ratio()});
    }
    return out;
  }

  const Job& job_;
  const SetGaugeAsked& asked_;
  const Catalogue& known_ = catalogue();
  const Part* named_part_ = nullptr;
  Problems problems_;
};

}  // namespace

std::vector<const Gauge*> masters_for(const Job& job, const std::optional<Length>& size) {
  std::vector<const Gauge*> out;
  for (const auto& kept : job.gauges) {
    Problems other;  // of gauges that nobody asked for
    const auto found = take(know_gauge(kept.value, catalogue().gauge_presets, place_of(kept.value)), other);
    if (found && (size ? lends(*found, *size) : found->preset->serves_as.has_value())) out.push_back(&kept.value);
  }
  return out;
}

std::optional<Length> size_to_set(const Job& job, const SetGaugeAsked& asked) { return GaugeSetter(job, asked).size(); }

Result<SettingUp> set_gauge(const Job& job, const SetGaugeAsked& asked) { return GaugeSetter(job, asked).run(); }

}  // namespace fettle
