#include "verdict/judge.h"

#include <algorithm>
#include <cmath>
#include <memory>

#include "catalogue/catalogue.h"
#include "form/evaluate.h"
#include "form/expand.h"
#include "verdict/part_state.h"
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

class Bench {
 public:
  explicit Bench(const JudgeInput& input) : input_(input), shape_(input.accuracy, input.points) {}

  Judgement run() {
    out_.rule = input_.rule;
    out_.accuracy = input_.accuracy;
    for (const PartOnBench& part : input_.parts) open_part(part);
    weigh_all();
    for (const PartOnBench& part : input_.parts) out_.states.push_back(state(part));
    judge_together();
    return std::move(out_);
  }

 private:
  [[nodiscard]] const PartEstimate* estimate_of(const Part& part) const {
    for (const GroupEstimate& group : input_.groups) {
      for (const PartEstimate& each : group.parts) {
        if (each.part == part.id) return &each;
      }
    }
    return nullptr;
  }

  [[nodiscard]] const ShapeGroup* group_of(const std::string& part) const {
    for (const GroupEstimate& group : input_.groups) {
      if (group.shape && block_of(*group.shape, part)) return group.shape.get();
    }
    return nullptr;
  }

  [[nodiscard]] const Definition* definition_of(const Limit& limit) const {
    const auto found = std::find_if(input_.definitions.begin(), input_.definitions.end(),
                                    [&](const auto& each) { return each.id == limit.definition; });
    return found == input_.definitions.end() ? nullptr : &*found;
  }

  void open_part(const PartOnBench& part) {
    for (const Kept<Limit>& kept : input_.limits) {
      if (kept.value.kind == part.part.kind) open(part, kept.value);
    }
  }

  void open(const PartOnBench& part, const Limit& limit) {
    Verdict verdict{part.part.id, limit.id, VerdictWord::not_judged, {}, {}, bound_of(limit), {}, {}, {}, {}, {}};
    const Definition* definition = definition_of(limit);
    const PartEstimate* estimate = estimate_of(part.part);
    FETTLE_ASSERT(definition != nullptr && estimate != nullptr, limit.id + " " + part.part.id);
    PartGrid grid = grid_of(part, *estimate, limit);
    if (std::none_of(grid.read.begin(), grid.read.end(), [](bool read) { return read; })) {
      verdict.reasons.push_back(Problem{"verdict.not_read", {}, {verbatim("part", part.part.id)}});
    } else {
      move_by_step(part.part, *definition, verdict, grid);
      const ShapeGroup* group = group_of(part.part.id);
      if (group != nullptr) ask_for_size(*definition, limit, *group, verdict);
      Result<Expansion> expansion = expand(*definition, grid);
      if (!expansion.ok()) {
        if (group != nullptr && verdict.reasons.empty()) forecast_unread(*definition, grid, part, *group, limit, verdict);
        verdict.reasons.insert(verdict.reasons.end(), expansion.problems().begin(), expansion.problems().end());
      } else {
        measure(expansion.value(), *estimate, limit, verdict);
        if (verdict.reasons.empty()) {
          // The model's regions are made of linear forms; a formula is weighed by its readings alone.
          if (!expansion.value().formulas.empty()) group = nullptr;
          open_.push_back({std::make_unique<Expansion>(expansion.value()), estimate, group, out_.verdicts.size(), &limit});
          if (group != nullptr && !expansion.value().missing.empty()) {
            forecast_unread(*definition, grid, part, *group, limit, verdict);
          }
        }
      }
    }
    out_.verdicts.push_back(std::move(verdict));
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
  void forecast_unread(const Definition& definition, PartGrid grid, const PartOnBench& part, const ShapeGroup& group,
                       const Limit& limit, Verdict& verdict) {
    std::fill(grid.read.begin(), grid.read.end(), true);
    Result<Expansion> whole = expand(definition, grid);
    if (!whole.ok()) return;
    planned_.push_back({std::make_unique<Expansion>(std::move(whole).value()), estimate_of(part.part), &group, out_.verdicts.size(), &limit});
    const Expansion& expansion = *planned_.back().expansion;
    const Question question{expansion, *estimate_of(part.part), input_.sources, constant_in_unit(verdict.bound, expansion.dimension), limit.side};
    verdict.forecast = shape_.chance({&group, *block_of(group, part.part.id), question});
  }

  /// Over every place of the plan: what was read whole, and the forecasts of the rest.
  void forecast_together() {
    if (planned_.empty()) return;
    std::vector<GroupQuestion> together;
    for (const std::vector<Open>* list : {&planned_, &open_}) {
      for (const Open& open : *list) {
        const bool planned = list == &open_ && out_.verdicts[open.verdict].forecast.has_value();  // stands in planned_ as well
        if (planned || open.group == nullptr || open.limit->role != LimitRole::service) continue;
        together.push_back(shape_question(open, question_of(open)));
      }
    }
    if (!together.empty()) out_.joint.forecast = shape_.joint(together);
  }

  void measure(const Expansion& expansion, const PartEstimate& estimate, const Limit& limit, Verdict& verdict) const {
    const ExactValue measured = evaluate_exact(expansion, measured_sizes(estimate));
    verdict.as_measured = measured.value;
    verdict.measured_where = measured.where;
    const auto order = measured.value <=> verdict.bound;
    const bool tie_keeps = input_.rule.tie == TieRule::equal_is_within;
    const bool good_side = limit.side == LimitSide::at_most ? order < 0 : order > 0;
    verdict.reading_keeps = good_side || (order == 0 && tie_keeps);
  }

  [[nodiscard]] Question question_of(const Open& open) const {
    const Verdict& verdict = out_.verdicts[open.verdict];
    return {*open.expansion, *open.estimate, input_.sources, constant_in_unit(verdict.bound, open.expansion->dimension),
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
    std::vector<bool> joint;
    for (const Open& open : open_) {
      questions.push_back(question_of(open));
      joint.push_back(open.limit->role == LimitRole::service);
    }
    const bool with_plain = input_.accuracy.draws > 0;
    const PlainFigures figures =
        with_plain ? plain_figures(questions, joint, input_.sources, input_.accuracy) : PlainFigures{{}, {0.0, 0.0, 0}};
    for (std::size_t i = 0; i < open_.size(); ++i) {
      Verdict& verdict = out_.verdicts[open_[i].verdict];
      Weighing weighing = weigh(questions[i], input_.rule.level.to_double());
      verdict.doubt = std::move(weighing.doubt);
      if (with_plain) verdict.plain = figures.each[i];
      if (open_[i].group != nullptr) weigh_by_shape(open_[i], questions[i], verdict);
      switch (input_.rule.kind) {
        case RuleKind::probability: verdict.word = verdict.chance ? word_of(*verdict.chance) : weighing.word; break;
        case RuleKind::reading:
          verdict.word = *verdict.reading_keeps ? VerdictWord::within : VerdictWord::beyond;
          break;
      }
      refuse_unread_places(*open_[i].expansion, verdict);
      refuse_suspects(open_[i], verdict);
    }
    if (with_plain && std::find(joint.begin(), joint.end(), true) != joint.end()) out_.joint.plain = figures.joint;
    std::vector<GroupQuestion> together;
    for (std::size_t i = 0; i < open_.size(); ++i) {
      if (joint[i] && open_[i].group != nullptr) together.push_back(shape_question(open_[i], questions[i]));
    }
    if (!together.empty()) out_.joint.chance = shape_.joint(together);
    forecast_together();
    name_left_out();
  }

  /// A joint figure says nothing of limits that were not weighed: they are named beside it.
  void name_left_out() {
    for (const Verdict& verdict : out_.verdicts) {
      if (verdict.chance || group_of(verdict.part) == nullptr) continue;
      const auto limit = std::find_if(input_.limits.begin(), input_.limits.end(), [&](const auto& each) { return each.value.id == verdict.limit; });
      if (limit->value.role != LimitRole::service) continue;
      if (out_.joint.chance) out_.joint.chance_leaves_out.push_back({verdict.part, verdict.limit});
      if (out_.joint.forecast && !verdict.forecast) out_.joint.forecast_leaves_out.push_back({verdict.part, verdict.limit});
    }
  }

  [[nodiscard]] static GroupQuestion shape_question(const Open& open, const Question& question) {
    return {open.group, *block_of(*open.group, open.estimate->part), question};
  }

  void weigh_by_shape(const Open& open, const Question& question, Verdict& verdict) {
    const GroupQuestion by_shape = shape_question(open, question);
    verdict.chance = shape_.chance(by_shape);
    if (input_.accuracy.best_draws == 0) return;
    ShapeBench::Unfolded unfolded = shape_.unfold(by_shape, *verdict.chance, verdict.measured_where);
    verdict.best = unfolded.best;
    verdict.chance_shares = std::move(unfolded.shares);
  }

  [[nodiscard]] VerdictWord word_of(const Chance& chance) const {
    const double level = input_.rule.level.to_double();
    return chance.value >= level         ? VerdictWord::within
           : chance.value <= 1.0 - level ? VerdictWord::beyond
                                         : VerdictWord::too_close;
  }

  /// A reading that is more likely a mistake than not is asked for again before its part is passed.
  void refuse_suspects(const Open& open, Verdict& verdict) const {
    if (open.group == nullptr) return;
    for (const SuspectReading& suspect : open.group->suspects) {
      const std::vector<std::size_t>& used = open.expansion->used;
      if (suspect.part != verdict.part || !std::binary_search(used.begin(), used.end(), suspect.cell)) continue;
      const std::vector<Argument> arguments = place_arguments(layout_of(verdict.part), suspect.cell);
      if (verdict.word == VerdictWord::within && suspect.mistake > kLikelier) {
        verdict.word = VerdictWord::not_judged;
        verdict.reasons.push_back(Problem{"verdict.suspect_reading", {}, arguments});
      } else {
        verdict.remarks.push_back({"remark.suspect_reading", arguments});
      }
    }
  }

  [[nodiscard]] const Layout& layout_of(const std::string& part) const {
    return std::find_if(input_.parts.begin(), input_.parts.end(), [&](const auto& each) { return each.part.id == part; })->layout;
  }

  [[nodiscard]] PartState state(const PartOnBench& part) const {
    std::vector<JudgedLimit> judged;
    for (const Verdict& verdict : out_.verdicts) {
      if (verdict.part != part.part.id) continue;
      const auto limit = std::find_if(input_.limits.begin(), input_.limits.end(),
                                      [&](const auto& each) { return each.value.id == verdict.limit; });
      judged.push_back({&limit->value, &verdict});
    }
    std::vector<const Finding*> findings;
    for (const auto& kept : input_.findings) {
      if (kept.value.part == part.part.id) findings.push_back(&kept.value);
    }
    return state_of(part, judged, findings);
  }

  void judge_together() {
    JointVerdict& joint = out_.joint;
    bool beyond = false;
    bool open = false;
    bool judged = false;
    for (const PartState& state : out_.states) {
      switch (state.word) {
        case StateWord::as_new:
        case StateWord::serviceable: judged = true; break;
        case StateWord::beyond: beyond = true; break;
        case StateWord::too_close: open = true; break;
        case StateWord::not_judged: joint.left_out.push_back(state.part); break;
      }
    }
    const double level = input_.rule.level.to_double();
    const bool any_plain = std::any_of(open_.begin(), open_.end(), [](const Open& each) { return each.group == nullptr; });
    const bool sure = input_.rule.kind == RuleKind::reading ||
                      ((!joint.chance || joint.chance->value >= level) &&
                       ((joint.chance && !any_plain) || !joint.plain || joint.plain->value >= level));
    joint.word = beyond                   ? VerdictWord::beyond
                 : open                   ? VerdictWord::too_close
                 : !judged                ? VerdictWord::not_judged
                 : !joint.left_out.empty() ? VerdictWord::not_judged
                 : sure                   ? VerdictWord::within
                                          : VerdictWord::too_close;
  }

  const JudgeInput& input_;
  ShapeBench shape_;
  Judgement out_{};
  std::vector<Open> open_;
  std::vector<Open> planned_;  ///< what was not read whole, as if it had been
};

}  // namespace

Judgement judge(const JudgeInput& input) { return Bench(input).run(); }

}  // namespace fettle
