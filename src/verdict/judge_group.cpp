#include "verdict/judge_group.h"

#include <algorithm>
#include <cmath>

#include "catalogue/catalogue.h"
#include "form/evaluate.h"
#include "form/expand.h"
#include "form/unfit.h"
#include "verdict/chance_region.h"
#include "verdict/place_values.h"
#include "verdict/shape_bench.h"

namespace fettle {
namespace {

/// A characteristic that can be judged, with the verdict that is being made of it.
struct Open {
  std::unique_ptr<Expansion> expansion;
  const PartEstimate* estimate;
  const ShapeGroup* group;  ///< nothing: plain
  std::size_t verdict;
  const Limit* limit;
};

/// Past this a group's level is no wear: its limits are those of another size.
constexpr double kOtherSizeUm = 200.0;
constexpr double kLikelier = 0.5;

class GroupBench {
 public:
  GroupBench(const GroupToJudge& from, const std::vector<Definition>& definitions, NormalPoints& points)
      : from_(from), definitions_(definitions), shape_(from.accuracy, points) {}

  JudgedGroup run() {
    for (std::size_t p = 0; p < from_.group.parts.size(); ++p) {
      for (const Limit& limit : from_.limits) {
        if (limit.kind == from_.group.parts[p].part.kind) open(from_.group.parts[p], from_.group.estimates[p], limit);
      }
    }
    weigh_all();
    gather_questions();
    gather_regions();
    return std::move(out_);
  }

 private:
  [[nodiscard]] const Definition* definition_of(const Limit& limit) const {
    const auto found = std::find_if(definitions_.begin(), definitions_.end(), [&](const auto& each) { return each.id == limit.definition; });
    return found == definitions_.end() ? nullptr : &*found;
  }

  void open(const PartOnBench& part, const PartEstimate& estimate, const Limit& limit) {
    Verdict verdict{part.part.id, limit.id, VerdictWord::not_judged, {}, {}, bound_of(limit), {}, {}, {}, {}, {}};
    if (limit.origin.sheet) say_of_sheet(*limit.origin.sheet, verdict);
    const Definition* definition = definition_of(limit);
    FETTLE_ASSERT(definition != nullptr, limit.id);
    PartGrid grid = grid_of(part, estimate, limit);
    if (std::none_of(grid.read.begin(), grid.read.end(), [](bool read) { return read; })) {
      verdict.reasons.push_back(Problem{"verdict.not_read", {}, {verbatim("part", part.part.id)}});
    } else {
      move_by_step(part.part, *definition, verdict, grid);
      const ShapeGroup* group = from_.shape.get();
      if (group != nullptr) ask_for_size(*definition, limit, *group, verdict);
      Result<Expansion> expansion = expand(*definition, grid);
      if (!expansion.ok()) {
        if (group != nullptr && verdict.reasons.empty()) forecast_unread(*definition, grid, estimate, *group, limit, verdict);
        verdict.reasons.insert(verdict.reasons.end(), expansion.problems().begin(), expansion.problems().end());
      } else if (Problems unfit = unfit_problems(*definition, grid, expansion.value(), measured_sizes(estimate)); !unfit.empty()) {
        verdict.reasons.insert(verdict.reasons.end(), unfit.begin(), unfit.end());
      } else {
        measure(expansion.value(), estimate, limit, verdict);
        if (verdict.reasons.empty()) {
          // The model's regions are made of linear forms; a formula is weighed by its readings alone.
          if (!expansion.value().formulas.empty()) group = nullptr;
          open_.push_back({std::make_unique<Expansion>(expansion.value()), &estimate, group, out_.verdicts.size(), &limit});
          if (group != nullptr && !expansion.value().missing.empty()) {
            forecast_unread(*definition, grid, estimate, *group, limit, verdict);
          }
        }
      }
    }
    out_.verdicts.push_back(std::move(verdict));
  }

  static void say_of_sheet(const SheetOrigin& origin, Verdict& verdict) {
    if (origin.open) verdict.remarks.push_back({"remark.open_question", {verbatim("row", origin.row), verbatim("sheet", origin.sheet)}});
    if (!origin.unsaid.empty()) verdict.remarks.push_back({"remark.unsaid", {verbatim("row", origin.row), verbatim("sheet", origin.sheet)}});
  }

  [[nodiscard]] static PartGrid grid_of(const PartOnBench& part, const PartEstimate& estimate, const Limit& limit) {
    PartGrid grid{part.feature, part.layout, {}, {std::nullopt, std::nullopt}};
    for (const auto& place : estimate.places) grid.read.push_back(place.has_value());
    grid.given.standard = exact_length(limit.standard);
    grid.given.nominal = grid.given.standard;
    return grid;
  }

  /// A sheet speaks of the standard size: on an oversize part its size limits, and the size that wear counts from, move by the step.
  /// On a part of unknown step nobody knows which row counts.
  static void move_by_step(const Part& part, const Definition& definition, Verdict& verdict, PartGrid& grid) {
    const bool about_size = definition.family == Family::size && definition.dimension == ResultDimension::length;
    const bool about_wear = definition.family == Family::wear && grid.given.standard.has_value();
    if (!about_size && !about_wear) return;
    switch (part.step.kind) {
      case StepKind::standard: return;
      case StepKind::unknown:
        verdict.reasons.push_back(Problem{"verdict.step_unknown", {}, {verbatim("part", part.id)}});
        return;
      case StepKind::offset: break;
    }
    const auto offset = exact_length(part.step.offset);
    FETTLE_ASSERT(offset.has_value(), part.id);
    if (about_size) {
      verdict.bound = verdict.bound + offset->ratio();
    } else {
      grid.given.standard = *grid.given.standard + *offset;
    }
    verdict.remarks.push_back({"remark.moved_by_step", {verbatim("step", part.step.offset->text)}});
  }

  /// Where the group's level speaks against its standard size, the row of the sheet may be the wrong one.
  static void ask_for_size(const Definition& definition, const Limit& limit, const ShapeGroup& group, Verdict& verdict) {
    if (definition.family != Family::size && definition.family != Family::wear) return;
    const Argument level = length_argument("level", Ratio(static_cast<Int128>(std::abs(group.as_made.mean_um) + 0.5)) *
                                                        Ratio(static_cast<Int128>(Length::kCountsPerMillimetre / 1000)),
                                           UnitId::micrometre, 0);
    if (group.knowledge.tolerance_um && std::abs(group.as_made.mean_um) > kOtherSizeUm) {
      verdict.reasons.push_back(Problem{"verdict.other_size", {}, {level}});
    } else if (group.not_standard > kLikelier && limit.role == LimitRole::service) {
      verdict.remarks.push_back({"remark.not_standard", {level}});
    }
  }

  /// The chance over every place of the plan: where nobody read, the model's figure is a forecast and no verdict rests on it.
  void forecast_unread(const Definition& definition, PartGrid grid, const PartEstimate& estimate, const ShapeGroup& group,
                       const Limit& limit, Verdict& verdict) {
    std::fill(grid.read.begin(), grid.read.end(), true);
    Result<Expansion> whole = expand(definition, grid);
    if (!whole.ok()) return;
    planned_.push_back({std::make_unique<Expansion>(std::move(whole).value()), &estimate, &group, out_.verdicts.size(), &limit});
    const Expansion& expansion = *planned_.back().expansion;
    const Question question{expansion, estimate, from_.group.sources, constant_in_unit(verdict.bound, expansion.dimension), limit.side};
    verdict.forecast = shape_.chance({&group, *block_of(group, estimate.part), question});
  }

  void measure(const Expansion& expansion, const PartEstimate& estimate, const Limit& limit, Verdict& verdict) const {
    const ExactValue measured = evaluate_exact(expansion, measured_sizes(estimate));
    verdict.as_measured = measured.value;
    verdict.measured_where = measured.where;
    const auto order = measured.value <=> verdict.bound;
    const bool tie_keeps = from_.rule.tie == TieRule::equal_is_within;
    const bool good_side = limit.side == LimitSide::at_most ? order < 0 : order > 0;
    verdict.reading_keeps = good_side || (order == 0 && tie_keeps);
  }

  [[nodiscard]] Question question_of(const Open& open) const {
    const Verdict& verdict = out_.verdicts[open.verdict];
    return {*open.expansion, *open.estimate, from_.group.sources, constant_in_unit(verdict.bound, open.expansion->dimension),
            open.limit->side};
  }

  [[nodiscard]] static std::vector<Argument> place_arguments(const Layout& layout, std::size_t cell) {
    return {station_argument("station", layout.stations[cell / layout.directions.size()].id),
            direction_argument("direction", layout.directions[cell % layout.directions.size()].id)};
  }

  /// A place that was to be read may be the worst one: what was read can prove a part beyond, never within.
  void refuse_unread_places(const Expansion& expansion, Verdict& verdict) const {
    if (expansion.missing.empty()) return;
    const Layout& layout = layout_of(verdict.part);
    std::vector<Message> places;
    for (std::size_t cell : expansion.missing) places.push_back({"form.place", place_arguments(layout, cell)});
    const Argument missing = list("places", std::move(places));
    if (verdict.word == VerdictWord::within) {
      verdict.word = VerdictWord::not_judged;
      verdict.reasons.push_back(Problem{"verdict.places_missing", {}, {missing}});
    } else {
      verdict.remarks.push_back({"remark.places_missing", {missing}});
    }
  }

  void weigh_all() {
    std::vector<Question> questions;
    std::vector<bool> service;
    for (const Open& open : open_) {
      questions.push_back(question_of(open));
      service.push_back(open.limit->role == LimitRole::service);
      out_.plainly = out_.plainly || open.group == nullptr;
    }
    const bool with_plain = from_.accuracy.draws > 0 && !questions.empty();
    PlainFigures figures{{}, {}};
    if (with_plain) figures = plain_figures(questions, service, from_.group.sources, from_.accuracy);
    if (std::find(service.begin(), service.end(), true) != service.end()) out_.kept = std::move(figures.kept);
    for (std::size_t i = 0; i < open_.size(); ++i) {
      Verdict& verdict = out_.verdicts[open_[i].verdict];
      Weighing weighing = weigh(questions[i], from_.rule.level.to_double());
      verdict.doubt = std::move(weighing.doubt);
      if (with_plain) verdict.plain = figures.each[i];
      if (open_[i].group != nullptr) weigh_by_shape(open_[i], questions[i], verdict);
      switch (from_.rule.kind) {
        case RuleKind::probability: verdict.word = verdict.chance ? word_of(*verdict.chance) : weighing.word; break;
        case RuleKind::reading:
          verdict.word = *verdict.reading_keeps ? VerdictWord::within : VerdictWord::beyond;
          break;
      }
      if (weighing.near) refuse_near(open_[i], *weighing.near, verdict);
      refuse_unread_places(*open_[i].expansion, verdict);
      refuse_suspects(open_[i], verdict);
    }
  }

  void gather_questions() {
    out_.origin = from_.shape ? from_.shape->origin : ShapeOrigin{0.0, 1.0};
    for (const Open& open : open_) {
      if (open.expansion->formulas.empty()) out_.questions.push_back(asked(open));
    }
    for (const Open& open : planned_) out_.planned.push_back(asked(open));
  }

  [[nodiscard]] WeighedQuestion asked(const Open& open) const {
    const Question question = question_of(open);
    const auto part = static_cast<std::size_t>(open.estimate - from_.group.estimates.data());
    return {open.verdict, part, region_of(question.expansion, question.bound, question.side, out_.origin)};
  }

  /// What has to hold together: of what was read, and over every place of the plan.
  void gather_regions() {
    if (from_.shape == nullptr) return;
    out_.regions.resize(from_.shape->parts.size());
    out_.planned_regions.resize(from_.shape->parts.size());
    out_.forecasts = !planned_.empty();
    for (const Open& open : planned_) add_region(open, out_.planned_regions);
    for (const Open& open : open_) {
      if (open.group == nullptr) continue;
      add_region(open, out_.regions);
      if (!out_.verdicts[open.verdict].forecast) add_region(open, out_.planned_regions);  // else it stands in planned_
    }
  }

  void add_region(const Open& open, std::vector<std::vector<Region>>& regions) const {
    if (open.limit->role != LimitRole::service) return;
    const Question question = question_of(open);
    regions[*block_of(*open.group, open.estimate->part)].push_back(
        region_of(question.expansion, question.bound, question.side, open.group->origin));
  }

  [[nodiscard]] static GroupQuestion shape_question(const Open& open, const Question& question) {
    return {open.group, *block_of(*open.group, open.estimate->part), question};
  }

  void weigh_by_shape(const Open& open, const Question& question, Verdict& verdict) {
    const GroupQuestion by_shape = shape_question(open, question);
    verdict.chance = shape_.chance(by_shape);
    if (from_.accuracy.best_draws == 0) return;
    ShapeBench::Unfolded unfolded = shape_.unfold(by_shape, *verdict.chance, verdict.measured_where);
    verdict.best = unfolded.best;
    verdict.chance_shares = std::move(unfolded.shares);
  }

  [[nodiscard]] VerdictWord word_of(const Chance& chance) const {
    const double level = from_.rule.level.to_double();
    return chance.value >= level         ? VerdictWord::within
           : chance.value <= 1.0 - level ? VerdictWord::beyond
                                         : VerdictWord::too_close;
  }

  /// Where the gauges' doubt reaches to what no part can be, a linearised doubt means nothing. The rule that counts none keeps its word.
  void refuse_near(const Open& open, const FormulaTrouble& near, Verdict& verdict) const {
    const PartOnBench& part = *find_part(from_.group.parts, verdict.part);
    const PartGrid grid = grid_of(part, *open.estimate, *open.limit);
    std::vector<Argument> arguments = unfit_arguments(*definition_of(*open.limit), grid, near.sort, near.cells, measured_sizes(*open.estimate));
    verdict.doubt.reset();
    verdict.plain.reset();
    switch (from_.rule.kind) {
      case RuleKind::probability:
        verdict.word = VerdictWord::not_judged;
        verdict.reasons.push_back(Problem{"verdict.near_no_figure", {}, std::move(arguments)});
        break;
      case RuleKind::reading: verdict.remarks.push_back({"remark.near_no_figure", std::move(arguments)}); break;
    }
  }

  /// A reading that is more likely a mistake than not is asked for again before its part is passed; one that a person let stand is remarked.
  void refuse_suspects(const Open& open, Verdict& verdict) const {
    if (open.group == nullptr) return;
    for (const SuspectReading& suspect : open.group->suspects) {
      const std::vector<std::size_t>& used = open.expansion->used;
      if (suspect.part != verdict.part || !std::binary_search(used.begin(), used.end(), suspect.cell)) continue;
      const std::vector<Argument> arguments = place_arguments(layout_of(verdict.part), suspect.cell);
      const bool stands = std::all_of(suspect.readings.begin(), suspect.readings.end(), [&](const std::string& each) { return from_.stand.contains(each); });
      if (stands) {
        verdict.remarks.push_back({"remark.reading_stands", arguments});
      } else if (verdict.word == VerdictWord::within && suspect.mistake > kLikelier) {
        verdict.word = VerdictWord::not_judged;
        verdict.reasons.push_back(Problem{"verdict.suspect_reading", {}, arguments});
      } else {
        verdict.remarks.push_back({"remark.suspect_reading", arguments});
      }
    }
  }

  [[nodiscard]] const Layout& layout_of(const std::string& part) const {
    return find_part(from_.group.parts, part)->layout;
  }

  const GroupToJudge& from_;
  const std::vector<Definition>& definitions_;
  ShapeBench shape_;
  JudgedGroup out_{};
  std::vector<Open> open_;
  std::vector<Open> planned_;  ///< what was not read whole, as if it had been
};

}  // namespace

JudgedGroup judge_group(const GroupToJudge& from, const std::vector<Definition>& definitions, NormalPoints& points) {
  return GroupBench(from, definitions, points).run();
}

}  // namespace fettle
