#include "verdict/judge.h"

#include <algorithm>

#include "base/assertion.h"
#include "form/shape_group.h"
#include "verdict/part_state.h"

namespace fettle {
namespace {

class Bench {
 public:
  Bench(const JudgeInput& input, JudgeMemory& memory)
      : input_(input), memory_(memory), own_points_(input.accuracy.seed), points_(input.points != nullptr ? *input.points : own_points_) {}

  Judgement run() {
    out_.rule = input_.rule;
    out_.accuracy = input_.accuracy;
    for (const GroupEstimate& group : input_.groups) judge_one(group);
    for (const PartOnBench& part : input_.parts) take_verdicts(part.part.id);
    for (const PartOnBench& part : input_.parts) out_.states.push_back(state(part));
    weigh_together();
    name_left_out();
    judge_together();
    out_.groups = groups_;
    return std::move(out_);
  }

 private:
  void judge_one(const GroupEstimate& group) {
    GroupToJudge one{group_on_bench(group, input_.parts), group.shape, {}, input_.rule, input_.accuracy, input_.stand};
    for (const Kept<Limit>& kept : input_.limits) {
      if (kept.value.kind == group.kind) one.limits.push_back(kept.value);
    }
    groups_.push_back(memory_.groups.of(std::move(one), [&](const GroupToJudge& from) { return judge_group(from, input_.definitions, points_); }));
  }

  /// In the order of the parts on the bench.
  void take_verdicts(const std::string& part) {
    for (const auto& group : groups_) {
      for (const Verdict& verdict : group->verdicts) {
        if (verdict.part == part) out_.verdicts.push_back(verdict);
      }
    }
  }

  [[nodiscard]] bool by_shape(const std::string& part) const {
    return std::any_of(input_.groups.begin(), input_.groups.end(), [&](const GroupEstimate& each) { return each.shape && block_of(*each.shape, part); });
  }

  void weigh_together() {
    if (input_.accuracy.draws > 0) out_.joint.plain = plain_together();
    const bool forecasts = std::any_of(groups_.begin(), groups_.end(), [](const auto& each) { return each->forecasts; });
    out_.joint.chance = chance_together(false);
    if (forecasts) out_.joint.forecast = chance_together(true);
  }

  [[nodiscard]] std::optional<PlainFigure> plain_together() const {
    std::vector<bool> kept(input_.accuracy.draws, true);
    bool any = false;
    for (const auto& group : groups_) {
      for (std::size_t i = 0; i < group->kept.size(); ++i) kept[i] = kept[i] && group->kept[i];
      any = any || !group->kept.empty();
    }
    return any ? std::optional(plain_figure(kept)) : std::nullopt;
  }

  /// Of all groups that the shape model judged: what was read, or every place of the plan.
  [[nodiscard]] std::optional<Chance> chance_together(bool planned) {
    JointQuestion question{{}, {}, planned, input_.accuracy};
    for (std::size_t g = 0; g < groups_.size(); ++g) {
      const auto& regions = planned ? groups_[g]->planned_regions : groups_[g]->regions;
      if (std::all_of(regions.begin(), regions.end(), [](const auto& each) { return each.empty(); })) continue;
      question.shapes.push_back(input_.groups[g].shape);
      question.groups.push_back(groups_[g]);
    }
    if (question.groups.empty()) return std::nullopt;
    return *memory_.joints.of(std::move(question), [&](const JointQuestion& from) { return weigh_joint(from); });
  }

  [[nodiscard]] Chance weigh_joint(const JointQuestion& question) {
    std::vector<JointMixture> mixtures;
    for (std::size_t g = 0; g < question.groups.size(); ++g) {
      mixtures.push_back({&question.shapes[g]->mixture, question.planned ? question.groups[g]->planned_regions : question.groups[g]->regions});
    }
    return joint_chance(mixtures, question.shapes.back()->rows.named_sources.size(), {input_.accuracy.chance_error, input_.accuracy.most_points},
                        points_);
  }

  /// A joint figure says nothing of limits that were not weighed: they are named beside it.
  void name_left_out() {
    for (const Verdict& verdict : out_.verdicts) {
      if (verdict.chance || !by_shape(verdict.part)) continue;
      const auto limit = std::find_if(input_.limits.begin(), input_.limits.end(), [&](const auto& each) { return each.value.id == verdict.limit; });
      if (limit->value.role != LimitRole::service) continue;
      if (out_.joint.chance) out_.joint.chance_leaves_out.push_back({verdict.part, verdict.limit});
      if (out_.joint.forecast && !verdict.forecast) out_.joint.forecast_leaves_out.push_back({verdict.part, verdict.limit});
    }
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
    const bool any_plain = std::any_of(groups_.begin(), groups_.end(), [](const auto& each) { return each->plainly; });
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
  JudgeMemory& memory_;
  NormalPoints own_points_;
  NormalPoints& points_;
  Judgement out_{};
  std::vector<std::shared_ptr<const JudgedGroup>> groups_;  ///< beside the input's
};

}  // namespace

Judgement judge(const JudgeInput& input) {
  JudgeMemory own;
  return Bench(input, input.memory != nullptr ? *input.memory : own).run();
}

}  // namespace fettle
