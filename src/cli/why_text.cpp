#include "cli/judgement_text.h"

#include <algorithm>

#include "catalogue/catalogue.h"
#include "cli/judged_words.h"
#include "cli/marks.h"
#include "cli/table.h"
#include "form/shape_group.h"
#include "job/studies.h"
#include "units/print.h"
#include "verdict/judged_by.h"

namespace fettle {
namespace {

/// One verdict unfolded to its reasons.
class WhyText : private JudgedWords {
 public:
  WhyText(const JudgedJob& judged, const Look& look) : JudgedWords(judged, look) {}

  std::string why(const PartOnBench& part, const Verdict& verdict, const Limit& limit) const {
    std::string out = say({"why.title", {verbatim("part", part.part.id), verbatim("limit", limit.id)}}) + "\n\n";
    out += say({"why.readings", {}}) + "\n" + columns(readings(part), kTableIndent) + "\n";
    out += out_of_true(part);
    out += studied(part);
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
    out += say({"why.judged_by", {list("why", {judged_by(judged_.groups, verdict).why})}}) + "\n";
    out += "\n" + marked(verdict.word, look_.language, look_.colour) + ": " + say({why_word(verdict), {}}) + "\n";
    return out + rule();
  }

 private:
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
        const FigureStyle style = style_read(part.layout.quantity(each.cell), unit_);
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

  /// What gauges that were found out of true later did to the readings of this part.
  [[nodiscard]] std::string out_of_true(const PartOnBench& part) const {
    std::string out;
    for (const JudgedAgain& again : judged_.again) {
      double least = 0.0;
      double most = 0.0;
      std::int64_t readings = 0;
      for (const JudgedAgain::InDoubt& each : again.readings) {
        const auto size = std::find_if(judged_.sizes.sizes.begin(), judged_.sizes.sizes.end(), [&](const Size& one) { return one.reading == each.reading; });
        if (!each.figures || size->part != part.part.id) continue;
        least = readings == 0 ? each.figures->moved : std::min(least, each.figures->moved);
        most = readings == 0 ? each.figures->moved : std::max(most, each.figures->moved);
        ++readings;
      }
      if (readings == 0) continue;
      const auto figure = [&](double mm) { return verbatim(mm == least ? "least" : "most", number(print_length(mm, unit_)) + " " + symbol()); };
      const Argument gauge = verbatim("gauge", again.found.gauge);
      out += again.found.shows_too_much
                 ? say({least == most ? "why.out_of_true_all" : "why.out_of_true", {gauge, figure(least), figure(most), count("readings", readings)}})
                 : say({"why.may_be_off", {gauge, count("readings", readings)}});
      out += "\n";
    }
    return out;
  }

  /// Whose repeatability is that of a gauge study.
  [[nodiscard]] std::string studied(const PartOnBench& part) const {
    std::string out;
    for (const StudiedGauge* each : studies_of(judged_.job, part.part.id)) {
      out += say({each->person ? "why.studied_of" : "why.studied", {verbatim("gauge", each->gauge), verbatim("person", each->person.value_or("")),
                                                                   verbatim("repeatability", with_decimal_mark(each->repeatability.text, look_.language)),
                                                                   count("freedom", each->degrees_of_freedom)}}) + "\n";
    }
    return out;
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
    out += say({"why.chance", {verbatim("chance", chance_in_words(*verdict.chance))}}) + "\n";
    if (verdict.forecast) out += say({"why.forecast", {verbatim("chance", chance_in_words(*verdict.forecast))}}) + "\n";
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
};

}  // namespace

std::optional<std::string> why_text(const JudgedJob& judged, const std::string& part, const std::string& limit, const Look& look) {
  const PartOnBench* on_bench = find_part(judged.parts, part);
  const auto verdict = std::find_if(judged.judgement.verdicts.begin(), judged.judgement.verdicts.end(),
                                    [&](const auto& each) { return each.part == part && each.limit == limit; });
  const auto kept = std::find_if(judged.job.limits.begin(), judged.job.limits.end(),
                                 [&](const auto& each) { return each.value.id == limit; });
  if (on_bench == nullptr || verdict == judged.judgement.verdicts.end()) return std::nullopt;
  return WhyText(judged, look).why(*on_bench, *verdict, kept->value);
}

}  // namespace fettle
