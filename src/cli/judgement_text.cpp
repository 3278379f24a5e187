#include "cli/judgement_text.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "catalogue/catalogue.h"
#include "catalogue/figure_style.h"
#include "cli/marks.h"
#include "cli/said_once.h"
#include "cli/table.h"
#include "form/shape_group.h"
#include "form/shape_said.h"
#include "units/print.h"

namespace fettle {
namespace {

constexpr std::size_t kMostRemarks = 40;

class JudgementText {
 public:
  JudgementText(const JudgedJob& judged, const Look& look)
      : judged_(judged), look_(look),
        unit_(judged.job.opened ? judged.job.opened->value.shown_unit : UnitId::millimetre) {}

  std::string all() const {
    std::string out = head() + "\n";
    for (const PartOnBench& part : judged_.parts) out += one_part(part) + "\n";
    out += whole() + "\n";
    out += notices();
    out += origins();
    return out + rule();
  }

  std::string why(const PartOnBench& part, const Verdict& verdict, const Limit& limit) const {
    std::string out = say({"why.title", {verbatim("part", part.part.id), verbatim("limit", limit.id)}}) + "\n\n";
    out += say({"why.readings", {}}) + "\n" + columns(readings(part), kTableIndent) + "\n";
    out += say({"why.characteristic", {verbatim("definition", title(limit, part.feature)), verbatim("id", limit.definition)}});
    out += " " + figure_of(verdict, limit) + unit_of(limit) + "\n";
    out += say({"why.limit", {verbatim("side", side_sign(limit)), verbatim("bound", bound_text(verdict, limit) + unit_of(limit)),
                              verbatim("typed", typed_bound(limit))}});
    out += " " + origin_of(limit) + "\n";
    for (const Message& remark : verdict.remarks) out += say(remark) + "\n";
    if (verdict.chance && verdict.best) {
      out += by_shape(verdict, part, limit);
    } else if (verdict.doubt) {
      out += doubt(*verdict.doubt, part, limit);
    }
    for (const Problem& reason : verdict.reasons) out += what_and_do(reason, look_.language) + "\n";
    out += "\n" + marked(verdict.word, look_.language, look_.colour) + ": " + say({why_word(verdict), {}}) + "\n";
    return out + rule();
  }

 private:
  [[nodiscard]] std::string say(const Message& message) const { return sentence(message, look_.language); }
  [[nodiscard]] std::string number(std::string digits) const { return with_decimal_mark(std::move(digits), look_.language); }
  [[nodiscard]] std::string length(const Ratio& counts) const { return number(in_unit(counts, unit_, fine_decimals(unit_))); }
  [[nodiscard]] std::string symbol() const { return std::string(unit_definition(unit_).symbol); }

  [[nodiscard]] static std::string joined(const std::vector<std::string>& all) {
    std::string out;
    for (const std::string& each : all) out += (out.empty() ? "" : ", ") + each;
    return out;
  }

  [[nodiscard]] std::string rule_word(const Verdict& verdict) const {
    return std::string(rule_kind_name(judged_.judgement.rule.kind)) + "." + std::string(verdict_word_name(verdict.word));
  }

  /// The first reason is the one that would have to go first.
  [[nodiscard]] std::string why_word(const Verdict& verdict) const {
    if (verdict.word == VerdictWord::not_judged) {
      FETTLE_ASSERT(!verdict.reasons.empty(), verdict.part + " " + verdict.limit);
      const std::string& code = verdict.reasons.front().code;
      const std::string key = "why.not_judged." + code.substr(code.find('.') + 1);
      return has_key(key, Language::english) ? key : "why.not_judged.definition";
    }
    const bool chance = verdict.chance && judged_.judgement.rule.kind == RuleKind::probability;
    return chance ? "why.word.chance." + std::string(verdict_word_name(verdict.word)) : "why.word." + rule_word(verdict);
  }

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
    const auto add = [&](const char* key, const std::string& text) {
      if (!text.empty()) out += "; " + say({key, {verbatim("text", text)}});
    };
    add("head.number_one", engine.number_one_end);
    if (engine.turns) {
      out += "; " + say({*engine.turns == NeedleSide::clockwise ? "head.turns_clockwise" : "head.turns_anticlockwise",
                         {verbatim("from", engine.seen_from)}});
    }
    add("head.thrust", engine.thrust_side);
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
      out += say({"side.title", {verbatim("limit", limit.id + " " + side_sign(limit) + " " + bound_text(each.under.front().verdict, limit))}}) + "\n";
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
      out += "    " + say({finding.where.empty() ? "reason.seen" : "reason.seen_at",
                           {verbatim("what", finding.what), verbatim("where", finding.where)}}) + "\n";
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

  [[nodiscard]] std::string step(const Step& step) const {
    if (step.offset) return step.offset->text;
    return word_for("step." + std::string(step_kind_name(step.kind)), look_.language);
  }

  [[nodiscard]] const Limit& limit_of(const std::string& id) const {
    return std::find_if(judged_.job.limits.begin(), judged_.job.limits.end(),
                        [&](const auto& each) { return each.value.id == id; })->value;
  }

  static std::string side_sign(const Limit& limit) {
    switch (limit.side) {
      case LimitSide::at_most: return "≤";
      case LimitSide::at_least: return "≥";
    }
    return "";
  }

  /// As typed: "0.05 mm per 100 mm".
  [[nodiscard]] std::string typed_bound(const Limit& limit) const {
    if (!limit.per) return limit.bound.text;
    return say({"limit.per", {verbatim("bound", limit.bound.text), verbatim("per", limit.per->text)}});
  }

  [[nodiscard]] static ResultDimension dimension_of(const Limit& limit) { return catalogue().definition(limit.definition)->dimension; }
  [[nodiscard]] static bool is_length(const Limit& limit) { return dimension_of(limit) == ResultDimension::length; }
  [[nodiscard]] FigureStyle style_of(const Limit& limit) const {
    return style_as_typed(dimension_of(limit), unit_, limit.bound.quantity.unit);
  }
  /// " N", or nothing for a pure number.
  [[nodiscard]] std::string unit_of(const Limit& limit) const {
    const std::string unit = style_of(limit).unit;
    return unit == "1" ? "" : " " + unit;
  }

  [[nodiscard]] std::string bound_text(const Verdict& verdict, const Limit& limit) const {
    return number(shown(verdict.bound, style_of(limit)));
  }

  [[nodiscard]] std::string figure_of(const Verdict& verdict, const Limit& limit) const {
    if (!verdict.as_measured) return "–";
    return number(shown(*verdict.as_measured, style_of(limit)));
  }

  [[nodiscard]] std::string place(const Where& where, const Layout& layout) const {
    std::string out;
    for (std::size_t index : where.stations) {
      const Station& station = layout.stations[index];
      if (!station.member.empty()) out += (out.empty() ? "" : ", ") + word_for("member." + station.member, look_.language);
      out += (out.empty() ? "" : station.member.empty() ? "–" : " ") + say({"cell", {station_argument("word", station.id)}});
    }
    std::string directions;
    for (std::size_t index : where.directions) {
      directions += (directions.empty() ? "" : "/") + say({"cell", {direction_argument("word", layout.directions[index].id)}});
    }
    // Directions of several members would not say whose they are.
    const bool borrowed = std::any_of(where.stations.begin(), where.stations.end(), [&](std::size_t each) { return !layout.stations[each].member.empty(); });
    return directions.empty() || borrowed ? out : out + ", " + directions;
  }

  /// "largest size" of a bore, "smallest size" of a journal: some definitions read one way on one feature.
  [[nodiscard]] std::string title(const Limit& limit, Feature feature) const {
    return word_for("definition." + limit.definition + "." + std::string(feature_name(feature)), look_.language);
  }

  [[nodiscard]] std::vector<std::string> row(const Verdict& verdict, const PartOnBench& part) const {
    const Limit& limit = limit_of(verdict.limit);
    std::vector<std::string> cells = {title(limit, part.feature) + " (" + limit.definition + ", " +
                                          word_for("role." + std::string(role_name(limit.role)), look_.language) + ")",
                                      figure_of(verdict, limit), place(verdict.measured_where, part.layout),
                                      side_sign(limit) + " " + bound_text(verdict, limit) + (is_length(limit) ? "" : unit_of(limit))};
    if (judged_by_shape(part)) {
      cells.push_back(verdict.best ? best_text(*verdict.best, limit) : "–");
      cells.push_back(verdict.chance     ? chance_text(*verdict.chance)
                      : verdict.forecast ? say({"chance.forecast", {verbatim("chance", chance_text(*verdict.forecast))}})
                                         : "–");
    } else {
      cells.push_back(verdict.doubt ? uncertainty(*verdict.doubt, limit) : "–");
      cells.push_back(verdict.doubt ? signed_margin(*verdict.doubt) : "–");
    }
    cells.push_back(limit.role == LimitRole::fresh ? marked_new(verdict.word, look_.language)
                                                   : marked(verdict.word, look_.language, look_.colour));
    return cells;
  }

  [[nodiscard]] const GroupEstimate* group_of(const PartOnBench& part) const {
    for (const GroupEstimate& group : judged_.groups) {
      if (group.shape && block_of(*group.shape, part.part.id)) return &group;
    }
    return nullptr;
  }

  [[nodiscard]] bool judged_by_shape(const PartOnBench& part) const { return group_of(part) != nullptr; }

  /// Median and central 90 %.
  [[nodiscard]] std::string best_text(const BestEstimate& best, const Limit& limit) const {
    return number(estimate(best.median, limit)) + " (" + number(estimate(best.low, limit)) + "–" +
           number(estimate(best.high, limit)) + ")";
  }

  /// Two digits, cut towards one half: 94.8 % must not read as the 95 % that the rule asks for.
  [[nodiscard]] static std::string chance_text(const Chance& chance) {
    const double percent = 100.0 * chance.value;
    constexpr double kAlmost = 99.0;
    if (percent > kAlmost) return "> 99 %";
    if (percent < 100.0 - kAlmost) return "< 1 %";
    return print_fixed(percent >= 50.0 ? std::floor(percent) : std::ceil(percent), 0) + " %";
  }

  [[nodiscard]] std::string estimate(double value, const Limit& limit) const {
    return is_length(limit) ? print_length(value, unit_) : shown(value, style_of(limit));
  }

  [[nodiscard]] std::string uncertainty(const Doubt& doubt, const Limit& limit) const {
    return number(estimate(doubt.standard_uncertainty, limit));
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
      out += say({"whole.forecast", {verbatim("chance", chance_text(*joint.forecast))}}) + "\n" + leaves_out(joint.forecast_leaves_out);
    } else if (joint.chance) {
      out += say({"whole.chance", {verbatim("chance", chance_text(*joint.chance))}}) + "\n" + leaves_out(joint.chance_leaves_out);
    }
    return out;
  }

  /// What a joint chance does not count, by limit.
  [[nodiscard]] std::string leaves_out(const std::vector<LimitOfPart>& list) const {
    if (list.empty()) return {};
    std::map<std::string, std::string> parts_by_limit;
    for (const LimitOfPart& each : list) {
      std::string& parts = parts_by_limit[each.limit];
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

  [[nodiscard]] std::string origin_of(const Limit& limit) const {
    const LimitOrigin& origin = limit.origin;
    if (origin.rule_of_thumb) return say({"origin.thumb", {verbatim("decision", origin.decision)}});
    std::string book = origin.book + (origin.edition.empty() ? "" : ", " + origin.edition);
    return say({"origin.book", {verbatim("book", book), verbatim("page", origin.page)}});
  }

  [[nodiscard]] std::string origins() const {
    std::string out = say({"origins.title", {}}) + "\n";
    std::vector<std::vector<std::string>> rows;
    for (const auto& kept : judged_.job.limits) {
      rows.push_back({kept.value.id, side_sign(kept.value) + " " + typed_bound(kept.value), origin_of(kept.value)});
    }
    return rows.empty() ? std::string() : out + columns(rows, kTableIndent) + "\n";
  }

  /// A level in % with as many decimals as it has, up to four: 99.9 must not read as 100.
  [[nodiscard]] static std::string percent_digits(const Ratio& share) {
    constexpr int kMostDecimals = 4;
    const Ratio percent = share * Ratio(100);
    int decimals = 0;
    while (decimals < kMostDecimals && !(percent * Ratio::power_of_ten(decimals)).is_whole()) ++decimals;
    return percent.decimal(decimals);
  }

  [[nodiscard]] std::string rule() const {
    const Rule& rule = judged_.judgement.rule;
    const Argument level = decimal("level", percent_digits(rule.level), "%");
    std::string out = say({"rule." + std::string(rule_kind_name(rule.kind)), {level}}) + " " +
                      say({"rule." + std::string(tie_rule_name(rule.tie)), {}}) + "\n";
    const bool shapes = std::any_of(judged_.groups.begin(), judged_.groups.end(), [](const auto& each) { return each.shape != nullptr; });
    if (shapes && rule.kind == RuleKind::probability) out += say({"rule.chance", {level, decimal("rest", percent_digits(Ratio(1) - rule.level), "%")}}) + "\n";
    for (const GroupEstimate& group : judged_.groups) out += estimated(group);
    return out + say({"rule.who_decides", {}}) + "\n";
  }

  /// How the parts of a group that were read were estimated, and what the model says of them.
  [[nodiscard]] std::string estimated(const GroupEstimate& group) const {
    std::vector<std::string> ids;
    for (const PartEstimate& part : group.parts) {
      const auto read = [](const auto& place) { return place.has_value(); };
      if (std::any_of(part.places.begin(), part.places.end(), read)) ids.push_back(part.part);
    }
    if (ids.empty()) return "";
    std::string out = joined(ids) + ": " + say(group.why) + "\n";
    for (const Message& said : group.said) out += "    " + say(said) + "\n";
    if (!group.shape) return out;
    const Layout& layout = layout_of(group.parts.front().part);
    for (const Message& said : shape_said(*group.shape, layout, unit_)) out += "    " + say(said) + "\n";
    return out;
  }

  [[nodiscard]] const Layout& layout_of(const std::string& part) const {
    return std::find_if(judged_.parts.begin(), judged_.parts.end(), [&](const auto& each) { return each.part.id == part; })->layout;
  }

  /// The word with the id that has to be typed, where they differ.
  [[nodiscard]] std::string with_id(const Argument& argument, const std::string& id) const {
    const std::string shown = say({"cell", {argument}});
    return shown == id ? shown : shown + " (" + id + ")";
  }

  [[nodiscard]] std::vector<std::vector<std::string>> readings(const PartOnBench& part) const {
    std::vector<const Kept<Reading>*> own;
    for (const auto& kept : judged_.job.readings) {
      if (kept.value.part == part.part.id) own.push_back(&kept);
    }
    const auto cell = [&](const Kept<Reading>* each) {
      return part.layout.cell(part.layout.find_station(each->value.station).value_or(0),
                              part.layout.find_direction(each->value.direction).value_or(0));
    };
    std::stable_sort(own.begin(), own.end(), [&](const auto* a, const auto* b) { return cell(a) < cell(b); });
    std::vector<std::vector<std::string>> rows;
    for (const auto* each_reading : own) {
      const Kept<Reading>& kept = *each_reading;
      const Reading& reading = kept.value;
      std::string size = say({"why.left_out", {}});
      for (const Size& each : judged_.sizes.sizes) {
        if (each.reading != kept.event) continue;
        const FigureStyle style = usual_style(dimension_read(part.layout.quantity(each.cell)), unit_);
        size = number(shown(each.as_measured, style)) + " " + style.unit;
      }
      const std::string flag = reading.flag == ReadingFlag::none
                                   ? reading.note
                                   : word_for("flag." + std::string(flag_name(reading.flag)), look_.language) + " " + reading.note;
      rows.push_back({with_id(station_argument("word", reading.station), reading.station),
                      with_id(direction_argument("word", reading.direction), reading.direction), reading.quantity.text, reading.setting,
                      size, flag});
    }
    return rows;
  }

  /// A component that a job brought along goes by its own id.
  [[nodiscard]] std::string component(const std::string& id) const {
    return has_key("error." + id, look_.language) ? word_for("error." + id, look_.language) : id;
  }

  [[nodiscard]] std::string shares(const std::vector<Share>& all) const {
    std::vector<std::vector<std::string>> rows;
    for (const Share& share : all) {
      constexpr double kShown = 0.005;
      const std::string percent = share.share < kShown ? "< 1" : number(print_fixed(share.share * 100.0, 0));
      rows.push_back({percent + " %", component(share.component),
                      word_for("scope." + std::string(share.scope ? scope_name(*share.scope) : "part"), look_.language)});
    }
    return say({"why.shares", {}}) + "\n" + columns(rows, kTableIndent);
  }

  /// With its sign, in the unit of the limit.
  [[nodiscard]] std::string signed_estimate(double value, const Limit& limit) const {
    return (value > 0.0 ? "+" : "") + number(estimate(value, limit));
  }

  [[nodiscard]] std::string by_shape(const Verdict& verdict, const PartOnBench& part, const Limit& limit) const {
    const BestEstimate& best = *verdict.best;
    const std::string unit = unit_of(limit);
    std::string out = say({"why.best", {verbatim("median", number(estimate(best.median, limit)) + unit),
                                        verbatim("low", number(estimate(best.low, limit)) + unit),
                                        verbatim("high", number(estimate(best.high, limit)) + unit)}}) + "\n";
    const std::string there = number(estimate(best.plain + best.moved_by_errors + best.moved_by_shape, limit));
    out += say({"why.moved", {verbatim("where", place(verdict.measured_where, part.layout)),
                              verbatim("plain", number(estimate(best.plain, limit)) + unit),
                              verbatim("errors", signed_estimate(best.moved_by_errors, limit) + unit),
                              verbatim("shape", signed_estimate(best.moved_by_shape, limit) + unit),
                              verbatim("there", there + unit)}});
    if (there != number(estimate(best.median, limit))) out += " " + say({"why.moved_elsewhere", {}});
    out += "\n";
    out += shares(verdict.chance_shares);
    out += say({"why.chance", {verbatim("chance", chance_text(*verdict.chance))}}) + "\n";
    if (verdict.forecast) out += say({"why.forecast", {verbatim("chance", chance_text(*verdict.forecast))}}) + "\n";
    return out;
  }

  [[nodiscard]] std::string doubt(const Doubt& doubt, const PartOnBench& part, const Limit& limit) const {
    const std::string unit = unit_of(limit);
    std::string out = say({"why.estimate", {verbatim("estimate", number(estimate(doubt.estimate, limit)) + unit),
                                            verbatim("u", uncertainty(doubt, limit) + unit), verbatim("where", place(doubt.decides, part.layout))}}) + "\n";
    out += shares(doubt.shares);
    return out + say({"why.margin", {decimal("margin", print_fixed(doubt.margin_in_u, 2)),
                                     decimal("guard", print_fixed(doubt.guard_in_u, 2))}}) + "\n";
  }

  const JudgedJob& judged_;
  const Look& look_;
  UnitId unit_;
};

}  // namespace

std::string judgement_text(const JudgedJob& judged, const Look& look) { return JudgementText(judged, look).all(); }

std::optional<std::string> why_text(const JudgedJob& judged, const std::string& part, const std::string& limit, const Look& look) {
  const auto on_bench =
      std::find_if(judged.parts.begin(), judged.parts.end(), [&](const auto& each) { return each.part.id == part; });
  const auto verdict = std::find_if(judged.judgement.verdicts.begin(), judged.judgement.verdicts.end(),
                                    [&](const auto& each) { return each.part == part && each.limit == limit; });
  const auto kept = std::find_if(judged.job.limits.begin(), judged.job.limits.end(),
                                 [&](const auto& each) { return each.value.id == limit; });
  if (on_bench == judged.parts.end() || verdict == judged.judgement.verdicts.end()) return std::nullopt;
  return JudgementText(judged, look).why(*on_bench, *verdict, kept->value);
}

}  // namespace fettle
