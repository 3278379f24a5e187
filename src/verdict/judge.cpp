#include "verdict/judge.h"

#include <algorithm>
#include <memory>

#include "form/evaluate.h"
#include "form/expand.h"
#include "verdict/part_state.h"
#include "verdict/place_values.h"

namespace fettle {
namespace {

/// A characteristic that can be judged, with the verdict that is being made of it.
struct Open {
  std::unique_ptr<Expansion> expansion;
  const PartEstimate* estimate;
  std::size_t verdict;
  const Limit* limit;
};

class Bench {
 public:
  explicit Bench(const JudgeInput& input) : input_(input) {}

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
      Result<Expansion> expansion = expand(*definition, grid);
      if (!expansion.ok()) {
        verdict.reasons.insert(verdict.reasons.end(), expansion.problems().begin(), expansion.problems().end());
      } else {
        measure(expansion.value(), *estimate, limit, verdict);
        if (verdict.reasons.empty()) {
          open_.push_back({std::make_unique<Expansion>(expansion.value()), estimate, out_.verdicts.size(), &limit});
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

  /// A place that was to be read may be the worst one: what was read can prove a part beyond, never within.
  void refuse_unread_places(const Expansion& expansion, Verdict& verdict) const {
    if (expansion.missing.empty()) return;
    const auto part = std::find_if(input_.parts.begin(), input_.parts.end(),
                                   [&](const auto& each) { return each.part.id == verdict.part; });
    const Layout& layout = part->layout;
    std::string places;
    for (std::size_t cell : expansion.missing) {
      places += (places.empty() ? "" : ", ") + layout.stations[cell / layout.directions.size()].id + "/" +
                layout.directions[cell % layout.directions.size()].id;
    }
    const Argument missing = verbatim("places", places);
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
    const PlainFigures figures = plain_figures(questions, joint, input_.sources, input_.accuracy);
    for (std::size_t i = 0; i < open_.size(); ++i) {
      Verdict& verdict = out_.verdicts[open_[i].verdict];
      Weighing weighing = weigh(questions[i], input_.rule.level.to_double());
      verdict.doubt = std::move(weighing.doubt);
      verdict.plain = figures.each[i];
      switch (input_.rule.kind) {
        case RuleKind::probability: verdict.word = weighing.word; break;
        case RuleKind::reading:
          verdict.word = *verdict.reading_keeps ? VerdictWord::within : VerdictWord::beyond;
          break;
      }
      refuse_unread_places(*open_[i].expansion, verdict);
    }
    if (std::find(joint.begin(), joint.end(), true) != joint.end()) out_.joint.plain = figures.joint;
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
    const bool sure = !joint.plain || input_.rule.kind == RuleKind::reading ||
                      joint.plain->value >= input_.rule.level.to_double();
    joint.word = beyond                   ? VerdictWord::beyond
                 : open                   ? VerdictWord::too_close
                 : !judged                ? VerdictWord::not_judged
                 : !joint.left_out.empty() ? VerdictWord::not_judged
                 : sure                   ? VerdictWord::within
                                          : VerdictWord::too_close;
  }

  const JudgeInput& input_;
  Judgement out_{};
  std::vector<Open> open_;
};

}  // namespace

Judgement judge(const JudgeInput& input) { return Bench(input).run(); }

}  // namespace fettle
