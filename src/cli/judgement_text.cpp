#include "cli/judgement_text.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "app/limit_origin.h"
#include "app/part_words.h"
#include "catalogue/catalogue.h"
#include "cli/again_text.h"
#include "cli/judged_words.h"
#include "cli/marks.h"
#include "cli/said_once.h"
#include "cli/table.h"
#include "form/shape_group.h"
#include "form/shape_said.h"
#include "units/print.h"

namespace fettle {
namespace {

constexpr std::size_t kMostRemarks = 40;

class JudgementText : private JudgedWords {
 public:
  JudgementText(const JudgedJob& judged, const Look& look) : JudgedWords(judged, look) {}

  std::string all() const {
    std::string out = head() + "\n";
    for (const PartOnBench& part : judged_.parts) out += one_part(part) + "\n";
    out += whole() + "\n";
    out += again_text(judged_, look_);
    out += notices();
    out += origins();
    return out + rule();
  }

 private:

  [[nodiscard]] std::string head() const {
    std::string out;
    const Job& job = judged_.job;
    if (job.opened) out += job.opened->value.name + "  (" + job.id + ")\n";
    if (job.engine) out += engine(job.engine->value);
    if (job.opened && !job.opened->value.remark.empty()) out += job.opened->value.remark + "\n";
    out += say({"head.readings", {count("readings", static_cast<std::int64_t>(job.readings.size())),
                                  count("parts", static_cast<std::int64_t>(job.parts.size())), verbatim("unit", symbol())}});
    return out + "\n";
  }

  [[nodiscard]] std::string engine(const EngineDescribed& engine) const {
    std::string out = engine.name;
    for (const Message& each : engine_facts(engine)) out += "; " + say(each);
    return out + "\n";
  }

  [[nodiscard]] std::string one_part(const PartOnBench& part) const {
    const auto state = std::find_if(judged_.judgement.states.begin(), judged_.judgement.states.end(),
                                    [&](const auto& each) { return each.part == part.part.id; });
    std::string out = part.part.id + "  " + word_for("kind." + part.part.kind, look_.language) + ", " +
                      (part.part.members ? members(*part.part.members)
                                         : word_for("condition." + std::string(condition_name(part.part.condition)), look_.language) +
                                               ", " + step(part.part.step)) + "  " + marked(state->word, look_.language, look_.colour) + "\n";
    for (const Message& reason : state->reasons) out += "  " + say(reason) + "\n";
    std::vector<std::vector<std::string>> rows = {{say({"column.characteristic", {}}), say({"column.measured", {}}),
                                                   say({"column.where", {}}), say({"column.limit", {}})}};
    const bool by_shape = judged_by_shape(part);
    rows.front().push_back(by_shape ? say({"column.best", {}}) : "u");
    rows.front().push_back(say({by_shape ? "column.chance" : "column.margin", {}}));
    rows.front().push_back(say({"column.verdict", {}}));
    for (const Verdict& verdict : judged_.judgement.verdicts) {
      if (verdict.part == part.part.id && !nothing_read(verdict)) rows.push_back(row(verdict, part));
    }
    if (rows.size() > 1) out += columns(rows, kTableIndent);
    for (const auto& [reason, limits] : reasons_of(judged_.judgement.verdicts, part.part.id)) {
      // Of a part that was not read at all, nothing is to be said of single limits.
      const std::string about = reason.code == "verdict.not_read" ? "" : joined(limits) + ": ";
      out += "  " + about + what_and_do(reason, look_.language) + "\n";
    }
    out += findings(part) + remarks(part) + shape(part);
    return look_.all_definitions ? out + every_definition(part) : out;
  }

  [[nodiscard]] std::string members(const std::vector<Member>& list) const {
    std::string out;
    for (const Member& each : list) out += (out.empty() ? "" : " + ") + each.part;
    return out;
  }

  /// The same readings under every definition of the catalogue, or what a definition needs.
  [[nodiscard]] std::string every_definition(const PartOnBench& part) const {
    std::vector<std::vector<std::string>> rows;
    for (const AsMeasured& each : judged_.measured) {
      if (each.part != part.part.id) continue;
      const std::string name =
          word_for("definition." + each.definition + "." + std::string(feature_name(part.feature)), look_.language);
      if (!each.value) {
        rows.push_back({each.definition, name, "–", what_and_do(each.missing.front(), look_.language)});
        continue;
      }
      const FigureStyle style = usual_style(each.dimension, unit_);
      const bool plain = each.dimension == ResultDimension::length || style.unit == "1";
      rows.push_back({each.definition, name, number(shown(*each.value, style)) + (plain ? "" : " " + style.unit),
                      place(each.where, part.layout)});
    }
    return say({"measured.title", {}}) + "\n" + columns(rows, kTableIndent) + side_by_side(part);
  }

  /// Each limit under every definition that books use for its word, and where the choice decides.
  [[nodiscard]] std::string side_by_side(const PartOnBench& part) const {
    std::string out;
    for (const SideBySide& each : judged_.side_by_side) {
      if (each.part != part.part.id) continue;
      const Limit& limit = limit_of(each.limit);
      out += say({"side.title", {verbatim("limit", limit.id + thumb_sign(limit) + " " + side_sign(limit) + " " + bound_text(each.under.front().verdict, limit))}}) + "\n";
      std::vector<std::vector<std::string>> rows;
      for (const SideBySide::Under& under : each.under) {
        const std::string name = word_for("definition." + under.definition + "." + std::string(feature_name(part.feature)), look_.language);
        rows.push_back({under.definition, name, figure_of(under.verdict, limit), marked(under.verdict.word, look_.language, look_.colour)});
      }
      out += columns(rows, kTableIndent);
      if (each.decides) out += say({"side.decides", {verbatim("definition", limit.definition)}}) + "\n";
    }
    return out;
  }

  /// What the eye saw, whatever its weight.
  [[nodiscard]] std::string findings(const PartOnBench& part) const {
    std::string out;
    for (const auto& kept : judged_.job.findings) {
      const Finding& finding = kept.value;
      if (finding.part != part.part.id || finding.weight != FindingWeight::note) continue;
      out += "    " + say(seen_message(finding)) + "\n";
    }
    return out;
  }

  /// What was not read and what was moved, said where the verdict is.
  [[nodiscard]] std::string remarks(const PartOnBench& part) const {
    std::string out;
    for (const auto& [remark, limits] : remarks_of(judged_.judgement.verdicts, part.part.id)) {
      out += "    " + joined(limits) + ": " + say(remark) + "\n";
    }
    return out;
  }

  /// Along the length in words, and across it by the two-lobe fit where three directions or more were read.
  [[nodiscard]] std::string shape(const PartOnBench& part) const {
    std::string out;
    for (const PartShape& each : judged_.shapes) {
      if (each.part != part.part.id) continue;
      for (const ShapeFinding& finding : each.along) out += "    " + say(finding.message) + "\n";
      for (const StationOval& oval : each.ovals) out += "    " + say(oval_message(oval, part.layout)) + "\n";
    }
    return out;
  }

  [[nodiscard]] Message oval_message(const StationOval& oval, const Layout& layout) const {
    const std::string check(lobe_word_name(oval.check.word));
    Message message{"oval." + check, {station_argument("station", layout.stations[oval.station].id),
                                      decimal("ovality", print_length(oval.check.ovality_mm.value_or(0.0), unit_), symbol()),
                                      decimal("direction", print_fixed(oval.check.direction_degrees.value_or(0.0), 0), "°")}};
    if (oval.check.direction) {
      message.arguments.push_back(direction_argument("stands_out", layout.directions[oval.directions[*oval.check.direction]].id));
    }
    return message;
  }

  static bool nothing_read(const Verdict& verdict) {
    return std::any_of(verdict.reasons.begin(), verdict.reasons.end(),
                       [](const Problem& reason) { return reason.code == "verdict.not_read"; });
  }

  [[nodiscard]] std::vector<std::string> row(const Verdict& verdict, const PartOnBench& part) const {
    const Limit& limit = limit_of(verdict.limit);
    std::vector<std::string> cells = {title(limit, part.feature) + " (" + limit.definition + ", " +
                                          word_for("role." + std::string(role_name(limit.role)), look_.language) + ")",
                                      figure_of(verdict, limit), place(verdict.measured_where, part.layout),
                                      side_sign(limit) + " " + bound_text(verdict, limit) + (is_length(limit) ? "" : unit_of(limit)) + thumb_sign(limit)};
    if (judged_by_shape(part)) {
      cells.push_back(verdict.best ? best_text(*verdict.best, limit) : "–");
      cells.push_back(verdict.chance     ? chance_in_words(*verdict.chance)
                      : verdict.forecast ? say({"chance.forecast", {verbatim("chance", chance_in_words(*verdict.forecast))}})
                                         : "–");
    } else {
      cells.push_back(verdict.doubt ? uncertainty(*verdict.doubt, limit) : "–");
      cells.push_back(verdict.doubt ? signed_margin(*verdict.doubt) : "–");
    }
    cells.push_back(limit.role == LimitRole::fresh ? marked_new(verdict.word, look_.language)
                                                   : marked(verdict.word, look_.language, look_.colour));
    return cells;
  }

  /// Median and central 90 %.
  [[nodiscard]] std::string best_text(const BestEstimate& best, const Limit& limit) const {
    return number(estimate(best.median, limit)) + " (" + number(estimate(best.low, limit)) + "–" +
           number(estimate(best.high, limit)) + ")";
  }

  [[nodiscard]] std::string signed_margin(const Doubt& doubt) const {
    const std::string digits = print_fixed(doubt.margin_in_u, 1);
    return number(doubt.margin_in_u > 0 ? "+" + digits : digits) + " u";
  }

  [[nodiscard]] std::string whole() const {
    const JointVerdict& joint = judged_.judgement.joint;
    std::string out = say({"whole.title", {}}) + " " + marked(joint.word, look_.language, look_.colour) + "\n";
    if (!joint.left_out.empty()) {
      out += say({"whole.left_out", {verbatim("parts", joined(joint.left_out))}}) + "\n";
    }
    if (joint.forecast) {
      out += say({"whole.forecast", {verbatim("chance", chance_in_words(*joint.forecast))}}) + "\n" + leaves_out(joint.forecast_leaves_out);
    } else if (joint.chance) {
      out += say({"whole.chance", {verbatim("chance", chance_in_words(*joint.chance))}}) + "\n" + leaves_out(joint.chance_leaves_out);
    }
    if (const auto thumb = thumb_limits_at_work(judged_); !thumb.empty()) out += say({"whole.thumb", {verbatim("limits", joined(thumb))}}) + "\n";
    return out;
  }

  /// What a joint chance does not count, by limit.
  [[nodiscard]] std::string leaves_out(const std::vector<LimitOfPart>& list) const {
    if (list.empty()) return {};
    std::map<std::string, std::string> parts_by_limit;
    for (const LimitOfPart& each : list) {
      std::string& parts = parts_by_limit[each.limit + thumb_sign(limit_of(each.limit))];
      parts += (parts.empty() ? "" : ", ") + each.part;
    }
    std::string limits;
    for (const auto& [limit, parts] : parts_by_limit) limits += (limits.empty() ? "" : "; ") + limit + " (" + parts + ")";
    return say({"whole.chance_leaves_out", {verbatim("limits", limits)}}) + "\n";
  }

  [[nodiscard]] std::string notices() const {
    std::string out;
    for (const Message& notice : judged_.notices) out += say(notice) + "\n";
    std::size_t shown = 0;
    for (const auto& reading : judged_.job.readings) {
      if (reading.value.flag == ReadingFlag::none || ++shown > kMostRemarks) continue;
      out += say({"notice.flagged", {verbatim("text", reading.value.quantity.text), verbatim("part", reading.value.part),
                                     station_argument("station", reading.value.station),
                                     direction_argument("direction", reading.value.direction),
                                     word("flag", "flag." + std::string(flag_name(reading.value.flag)))}}) + "\n";
    }
    return out.empty() ? out : out + "\n";
  }

  [[nodiscard]] std::string origins() const {
    std::string out = say({"origins.title", {}}) + "\n";
    std::vector<std::vector<std::string>> rows;
    for (const auto& kept : judged_.job.limits) {
      rows.push_back({kept.value.id, side_sign(kept.value) + " " + typed_bound(kept.value), origin_of(kept.value)});
    }
    return rows.empty() ? std::string() : out + columns(rows, kTableIndent) + "\n";
  }
};

}  // namespace

std::string judgement_text(const JudgedJob& judged, const Look& look) { return JudgementText(judged, look).all(); }

}  // namespace fettle
