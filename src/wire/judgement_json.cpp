#include <algorithm>
#include <cmath>

#include "base/assertion.h"
#include "catalogue/catalogue.h"
#include "catalogue/figure_style.h"
#include "form/shape_group.h"
#include "units/print.h"
#include "verdict/judged_by.h"
#include "wire/json_text.h"
#include "wire/json_values.h"
#include "wire/twice_judged_json.h"

namespace fettle {
namespace {

using json::Json;


class JudgementWriter {
 public:
  explicit JudgementWriter(const JudgedView& view)
      : view_(view), unit_(view.job.opened ? view.job.opened->value.shown_unit : UnitId::millimetre) {}

  Json write() const {
    return {{"format", "fettle-judgement"},
            {"version", 1},
            {"job", job()},
            {"rule", rule()},
            {"accuracy", accuracy()},
            {"groups", groups()},
            {"parts", parts()},
            {"joint", joint()},
            {"found_out", found_out()},
            {"masters", masters()},
            {"sources", sources()},
            {"notices", json::messages(view_.notices)}};
  }

 private:
  [[nodiscard]] Json job() const {
    Json out = {{"id", view_.job.id}};
    if (view_.job.opened) out["name"] = view_.job.opened->value.name;
    if (view_.job.engine) out["engine"] = view_.job.engine->value.name;
    out["readings"] = view_.job.readings.size();
    return out;
  }

  [[nodiscard]] Json rule() const {
    const Rule& rule = view_.judgement.rule;
    return {{"kind", std::string(rule_kind_name(rule.kind))},
            {"level", level_text(rule.level)},
            {"tie", std::string(tie_rule_name(rule.tie))}};
  }

  /// All its decimals, at least two: a level of 0.99999 is not 1.
  static std::string level_text(const Ratio& level) {
    std::string text = level.decimal(12);
    while (text.ends_with('0') && text.size() > std::string_view("0.95").size()) text.pop_back();
    return text;
  }

  [[nodiscard]] Json groups() const {
    Json out = Json::array();
    for (const GroupEstimate& group : view_.groups) {
      Json entry = {{"kind", group.kind},
                    {"model", std::string(model_name(group.model))},
                    {"parts", Json::array()},
                    {"why", json::message(group.why)},
                    {"said", json::messages(group.said)}};
      for (const PartEstimate& part : group.parts) entry["parts"].push_back(part.part);
      if (group.shape) entry["shape"] = shape_group(*group.shape);
      out.push_back(std::move(entry));
    }
    return out;
  }

  [[nodiscard]] Json shape_group(const ShapeGroup& group) const {
    const Layout& layout = find_part(view_.parts, group.parts.front())->layout;
    Json profile = Json::array();
    for (std::size_t h = 0; h < layout.stations.size(); ++h) {
      profile.push_back({{"station", layout.stations[h].id}, {"wear", print_fixed(group.assumptions.front().profile[h], 3)}});
    }
    Json suspects = Json::array();
    for (const SuspectReading& each : group.suspects) {
      suspects.push_back({{"part", each.part},
                          {"station", layout.stations[each.cell / layout.directions.size()].id},
                          {"direction", layout.directions[each.cell % layout.directions.size()].id},
                          {"readings", each.readings},
                          {"shown", json::estimate(each.shown_mm, ResultDimension::length, unit_)},
                          {"expected", json::estimate(each.expected_mm, ResultDimension::length, unit_)},
                          {"expected_sd", json::estimate(each.expected_sd_mm, ResultDimension::length, unit_)},
                          {"tail", print_fixed(each.tail, 5)},
                          {"mistake", print_fixed(each.mistake, 4)}});
    }
    return {{"profile", std::move(profile)},
            {"nodes", group.mixture.size()},
            {"misfit_tail", print_fixed(group.misfit_tail, 4)},
            {"not_standard", print_fixed(group.not_standard, 4)},
            {"setting", cause(group.setting)},
            {"as_made", cause(group.as_made)},
            {"suspects", std::move(suspects)}};
  }

  /// Of a shift common to all readings: positive in the direction of wear.
  [[nodiscard]] Json cause(const ShiftCause& cause) const {
    const auto length = [&](double um) { return json::estimate(um / 1000.0, ResultDimension::length, unit_); };
    return {{"stated", length(cause.stated_um)}, {"mean", length(cause.mean_um)}, {"sd", length(cause.sd_um)}};
  }

  [[nodiscard]] Json accuracy() const {
    const Accuracy& accuracy = view_.judgement.accuracy;
    return {{"draws", accuracy.draws},
            {"seed", accuracy.seed},
            {"chance_standard_error", print_fixed(accuracy.chance_error, 5)},
            {"most_points", accuracy.most_points},
            {"best_draws", accuracy.best_draws}};
  }

  [[nodiscard]] Json best(const BestEstimate& best, ResultDimension dimension) const {
    const auto figure = [&](double value) { return json::estimate(value, dimension, unit_); };
    return {{"plain", figure(best.plain)},
            {"median", figure(best.median)},
            {"low", figure(best.low)},
            {"high", figure(best.high)},
            {"moved_by_errors", figure(best.moved_by_errors)},
            {"moved_by_shape", figure(best.moved_by_shape)}};
  }

  static Json share(const Share& share) {
    Json out = {{"component", share.component}};
    if (share.scope) out["scope"] = std::string(scope_name(*share.scope));
    out["share"] = print_fixed(share.share, 4);
    return out;
  }

  [[nodiscard]] Json parts() const {
    Json out = Json::array();
    for (const PartOnBench& part : view_.parts) out.push_back(one_part(part));
    return out;
  }

  [[nodiscard]] Json one_part(const PartOnBench& part) const {
    const PartState& state = *std::find_if(view_.judgement.states.begin(), view_.judgement.states.end(),
                                           [&](const auto& each) { return each.part == part.part.id; });
    Json out = {{"id", part.part.id},
                {"kind", part.part.kind},
                {"position", part.part.position},
                {"step", step(part.part.step)},
                {"condition", std::string(condition_name(part.part.condition))},
                {"state", std::string(state_word_name(state.word))},
                {"reasons", json::messages(state.reasons)},
                {"findings", findings(part.part.id)},
                {"places", places(part)},
                {"as_measured", measured(part)},
                {"shape", shape(part)},
                {"verdicts", Json::array()}};
    if (state.without_thumb) out["without_thumb"] = std::string(state_word_name(*state.without_thumb));
    if (part.part.members) {
      out["members"] = Json::array();
      for (const Member& member : *part.part.members) out["members"].push_back({{"role", member.role}, {"part", member.part}});
    }
    for (const Verdict& verdict : view_.judgement.verdicts) {
      if (verdict.part == part.part.id) out["verdicts"].push_back(one_verdict(verdict, part.layout));
    }
    for (const SideBySide& each : view_.side_by_side) {
      if (each.part == part.part.id) out["side_by_side"].push_back(json::side_by_side(each, part.layout, limit_of(each.limit), unit_));
    }
    return out;
  }

  static Json step(const Step& step) {
    Json out = {{"kind", std::string(step_kind_name(step.kind))}};
    if (step.offset) out["offset"] = json::typed(*step.offset);
    if (!step.seen_where.empty()) out["seen"] = step.seen_where;
    return out;
  }

  [[nodiscard]] Json findings(const std::string& part) const {
    Json out = Json::array();
    for (const auto& kept : view_.job.findings) {
      const Finding& finding = kept.value;
      if (finding.part != part) continue;
      Json entry = {{"what", finding.what}, {"weight", std::string(weight_name(finding.weight))}, {"where", finding.where}};
      if (finding.depth) entry["depth"] = json::typed(*finding.depth);
      out.push_back(std::move(entry));
    }
    return out;
  }

  [[nodiscard]] Json places(const PartOnBench& part) const {
    Json out = Json::array();
    for (const GroupEstimate& group : view_.groups) {
      for (const PartEstimate& estimate : group.parts) {
        if (estimate.part != part.part.id) continue;
        for (const auto& place : estimate.places) {
          if (!place || !part.layout.stations[place->cell / part.layout.directions.size()].member.empty()) continue;
          out.push_back(one_place(*place, part.layout, group.sources));
          if (!group.shape) continue;
          const PlacePosterior posterior = place_posterior(*group.shape, *block_of(*group.shape, estimate.part), place->cell);
          out.back()["best"] = {{"mean", json::estimate(posterior.mean_mm, ResultDimension::length, unit_)},
                                {"sd", json::estimate(posterior.sd_mm, ResultDimension::length, unit_)}};
        }
      }
    }
    return out;
  }

  [[nodiscard]] Json one_place(const PlaceEstimate& place, const Layout& layout, const std::vector<ErrorSource>& sources) const {
    const Dimension quantity = layout.quantity(place.cell);
    double variance = 0.0;
    for (const ErrorTerm& term : place.terms) {
      const double each = term.coefficient * sources[term.source].standard_uncertainty;
      variance += each * each;
    }
    return {{"station", layout.stations[place.cell / layout.directions.size()].id},
            {"direction", layout.directions[place.cell % layout.directions.size()].id},
            {"as_measured", json::read(place.as_measured, quantity, unit_)},
            {"estimate", json::read(place.estimate, quantity, unit_)},
            {"standard_uncertainty", json::read(std::sqrt(variance), quantity, unit_)},
            {"readings", place.readings}};
  }

  [[nodiscard]] Json measured(const PartOnBench& part) const {
    Json out = Json::array();
    for (const AsMeasured& each : view_.measured) {
      if (each.part != part.part.id) continue;
      Json entry = {{"definition", each.definition}};
      if (each.value) entry["value"] = json::figure(*each.value, each.dimension, unit_);
      if (each.missing.empty()) {
        entry["where"] = json::where(each.where, part.layout);
      } else {
        entry["missing"] = json::problems(each.missing);
      }
      out.push_back(std::move(entry));
    }
    return out;
  }

  [[nodiscard]] Json shape(const PartOnBench& part) const {
    Json along = Json::array();
    Json ovals = Json::array();
    for (const PartShape& each : view_.shapes) {
      if (each.part != part.part.id) continue;
      for (const ShapeFinding& finding : each.along) along.push_back(json::message(finding.message));
      for (const StationOval& oval : each.ovals) ovals.push_back(one_oval(oval, part.layout));
    }
    return {{"along", std::move(along)}, {"ovals", std::move(ovals)}};
  }

  [[nodiscard]] Json one_oval(const StationOval& oval, const Layout& layout) const {
    Json out = {{"station", layout.stations[oval.station].id}};
    if (oval.check.ovality_mm) out["ovality"] = json::estimate(*oval.check.ovality_mm, ResultDimension::length, unit_);
    if (oval.check.direction_degrees) out["direction_degrees"] = print_fixed(*oval.check.direction_degrees, 1);
    out["blunder_check"] = std::string(lobe_word_name(oval.check.word));
    if (oval.check.direction) out["stands_out"] = layout.directions[oval.directions[*oval.check.direction]].id;
    return out;
  }

  [[nodiscard]] const Limit& limit_of(const std::string& id) const {
    const auto found = std::find_if(view_.job.limits.begin(), view_.job.limits.end(),
                                    [&](const auto& each) { return each.value.id == id; });
    FETTLE_ASSERT(found != view_.job.limits.end(), id);
    return found->value;
  }

  [[nodiscard]] Json one_verdict(const Verdict& verdict, const Layout& layout) const {
    const Limit& limit = limit_of(verdict.limit);
    const ResultDimension dimension = catalogue().definition(limit.definition)->dimension;
    Json out = {{"limit", limit.id},
                {"definition", limit.definition},
                {"role", std::string(role_name(limit.role))},
                {"side", std::string(side_name(limit.side))},
                {"bound", json::figure(verdict.bound, dimension, unit_)},
                {"bound_as_typed", json::typed(limit.bound)},
                {"origin", origin(limit.origin)},
                {"word", std::string(verdict_word_name(verdict.word))}};
    const JudgedBy by = judged_by(view_.groups, verdict);
    out["judged_by"] = {{"model", std::string(model_name(by.model))}, {"why", json::message(by.why)}};
    if (verdict.as_measured) {
      out["as_measured"] = json::figure(*verdict.as_measured, dimension, unit_);
      out["where"] = json::where(verdict.measured_where, layout);
    }
    if (verdict.reading_keeps) out["reading_keeps"] = *verdict.reading_keeps;
    if (verdict.doubt) out["doubt"] = doubt(*verdict.doubt, dimension, layout);
    if (verdict.plain) out["plain"] = plain(*verdict.plain);
    if (verdict.chance) out["chance"] = json::chance(*verdict.chance);
    if (verdict.forecast) out["forecast"] = json::chance(*verdict.forecast);
    if (verdict.best) {
      out["best"] = best(*verdict.best, dimension);
      out["chance_shares"] = Json::array();
      for (const Share& each : verdict.chance_shares) out["chance_shares"].push_back(share(each));
    }
    if (!verdict.reasons.empty()) out["reasons"] = json::problems(verdict.reasons);
    if (!verdict.remarks.empty()) out["remarks"] = json::messages(verdict.remarks);
    return out;
  }

  static Json origin(const LimitOrigin& origin) {
    Json out = {{"book", origin.book},
                {"edition", origin.edition},
                {"page", origin.page},
                {"decision", origin.decision},
                {"rule_of_thumb", origin.rule_of_thumb}};
    if (origin.sheet) {
      out["sheet"] = {{"id", origin.sheet->sheet}, {"row", origin.sheet->row}, {"open_question", origin.sheet->open}};
      if (!origin.sheet->unsaid.empty()) out["sheet"]["definition_not_said"] = origin.sheet->unsaid;
    }
    return out;
  }

  [[nodiscard]] Json doubt(const Doubt& doubt, ResultDimension dimension, const Layout& layout) const {
    Json out = {{"estimate", json::estimate(doubt.estimate, dimension, unit_)},
                {"standard_uncertainty", json::estimate(doubt.standard_uncertainty, dimension, unit_)},
                {"margin_in_u", print_fixed(doubt.margin_in_u, 2)},
                {"guard_in_u", print_fixed(doubt.guard_in_u, 3)},
                {"decides", json::where(doubt.decides, layout)},
                {"shares", Json::array()}};
    if (doubt.degrees_of_freedom) out["degrees_of_freedom"] = print_fixed(*doubt.degrees_of_freedom, 1);
    for (const Share& each : doubt.shares) out["shares"].push_back(share(each));
    return out;
  }

  static Json plain(const PlainFigure& plain) {
    return {{"figure", print_fixed(plain.value, 4)},
            {"standard_error", print_fixed(plain.standard_error, 4)},
            {"draws", plain.draws}};
  }

  [[nodiscard]] Json joint() const {
    const JointVerdict& joint = view_.judgement.joint;
    Json out = {{"word", std::string(verdict_word_name(joint.word))}, {"left_out", joint.left_out}};
    if (joint.plain) out["plain"] = plain(*joint.plain);
    if (joint.chance) out["chance"] = json::chance(*joint.chance);
    if (joint.forecast) out["forecast"] = json::chance(*joint.forecast);
    if (!joint.chance_leaves_out.empty()) out["chance_leaves_out"] = limits_of_parts(joint.chance_leaves_out);
    if (!joint.forecast_leaves_out.empty()) out["forecast_leaves_out"] = limits_of_parts(joint.forecast_leaves_out);
    return out;
  }

  static Json limits_of_parts(const std::vector<LimitOfPart>& list) {
    Json out = Json::array();
    for (const LimitOfPart& each : list) out.push_back({{"part", each.part}, {"limit", each.limit}});
    return out;
  }

  [[nodiscard]] Json found_out() const {
    Json out = Json::array();
    for (const JudgedAgain& each : view_.again) out.push_back(json::judged_again(each, view_.parts, view_.job.readings, unit_));
    return out;
  }

  [[nodiscard]] Json masters() const {
    Json out = Json::array();
    for (const MasterReport& master : view_.sizes.masters) {
      Json entry = {{"setting", master.setting}, {"really_set", json::length(master.really_set.ratio(), unit_)}};
      if (master.wanted) entry["wanted"] = json::length(master.wanted->ratio(), unit_);
      if (master.nearest) entry["nearest"] = json::length(master.nearest->ratio(), unit_);
      out.push_back(std::move(entry));
    }
    return out;
  }

  static Json uncertainty_of(const ErrorSource& source) {
    if (source.dimension != Dimension::temperature) return json::read(source.standard_uncertainty, source.dimension, UnitId::micrometre);
    return {{"value", print_fixed(source.standard_uncertainty, 3)}, {"unit", source.component == "expansion" ? "1e-6/°C" : "°C"}};
  }

  [[nodiscard]] Json sources() const {
    Json out = Json::array();
    for (const ErrorSource& source : view_.sizes.sources) {
      Json entry = {{"id", source.id},
                    {"component", source.component},
                    {"scope", std::string(scope_name(source.scope))},
                    {"shape", std::string(shape_name(source.shape))},
                    {"standard_uncertainty", uncertainty_of(source)}};
      if (source.degrees_of_freedom) entry["degrees_of_freedom"] = print_fixed(*source.degrees_of_freedom, 1);
      entry["origin"] = source.origin;
      out.push_back(std::move(entry));
    }
    return out;
  }

  const JudgedView& view_;
  UnitId unit_;
};

}  // namespace

std::string judgement_json(const JudgedView& view) { return JudgementWriter(view).write().dump(json::kIndent) + "\n"; }

std::string problems_json(const Problems& problems) {
  const Json out = {{"format", "fettle-problems"}, {"version", 1}, {"problems", json::problems(problems)}};
  return out.dump(json::kIndent) + "\n";
}

std::string typed_quantity_json(const TypedQuantity& typed) {
  Json out = {{"format", "fettle-typed-quantity"}, {"version", 1}};
  out.update(json::typed(typed));
  return out.dump(json::kIndent) + "\n";
}

std::string definitions_json(const std::vector<Definition>& definitions) {
  Json list = Json::array();
  for (const Definition& definition : definitions) {
    Json entry = {{"id", definition.id}, {"family", std::string(family_name(definition.family))},
                  {"judged", definition.judged()}, {"needs", definition.needs}, {"origin", definition.origin}, {"applies_to", Json::array()}};
    for (Feature feature : definition.applies_to) entry["applies_to"].push_back(std::string(feature_name(feature)));
    if (!definition.kinds.empty()) entry["kinds"] = definition.kinds;
    list.push_back(std::move(entry));
  }
  const Json out = {{"format", "fettle-definitions"}, {"version", 1}, {"definitions", std::move(list)}};
  return out.dump(json::kIndent) + "\n";
}

}  // namespace fettle
