#include "server/verdict_page.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "app/bench_list.h"
#include "app/limit_origin.h"
#include "app/next_page.h"
#include "app/part_words.h"
#include "base/joined.h"
#include "catalogue/catalogue.h"
#include "drawing/svg.h"
#include "form/shape_group.h"
#include "pictures/doubt_bar.h"
#include "server/gauge_words.h"
#include "server/part_drawn.h"
#include "server/verdict_figures.h"
#include "units/print.h"
#include "verdict/judged_by.h"

namespace fettle {
namespace {

std::string state_name(VerdictWord word) { return std::string(verdict_word_name(word)); }

std::string percent(const Ratio& share) {
  constexpr int kMostDecimals = 4;
  const Ratio hundredths = share * Ratio(100);
  int decimals = 0;
  while (decimals < kMostDecimals && !(hundredths * Ratio::power_of_ten(decimals)).is_whole()) ++decimals;
  return hundredths.decimal(decimals);
}

const char* eye_key(FindingWeight weight) {
  switch (weight) {
    case FindingWeight::condemns: return "verdict_page.eye_condemns";
    case FindingWeight::needs_test: return "verdict_page.eye_needs-test";
    case FindingWeight::note: return "verdict_page.eye_note";
  }
  return "";
}

class VerdictSpeaker {
 public:
  VerdictSpeaker(const RecordedJob& recorded, const JudgedJob& judged, const WholeEngine& whole, Language language)
      : recorded_(recorded), judged_(judged), whole_(whole), words_(language), figures_(judged, words_) {
    for (const EventEnvelope& each : recorded.events) who_.emplace(each.id, &each.who);
    for (const Size& each : judged.sizes.sizes) sizes_.emplace(each.reading, &each);
  }

  VerdictPage run() const {
    const VerdictRows rows = verdict_rows(recorded_, judged_);
    VerdictPage out{};
    out.job = judged_.job.id;
    out.name = name_of(judged_.job);
    out.position = position_of(recorded_);
    out.sentence = capital(words_.joined_line(spoken_verdict(judged_))) + ".";
    out.joint = joint();
    out.rule = rule();
    const NextPage next = next_page(judged_, next_reading(judged_), out.position, words_.language());
    for (const VerdictRow& each : rows.judged) {
      const std::string number = std::to_string(out.rows.size() + 1);
      out.rows.push_back(row(each));
      VerdictPage::Row& last = out.rows.back();
      if (each.verdict->word == VerdictWord::too_close) last.settle = what_settles(last.part, next);
      const DoubtBar bar = bar_of(*each.verdict, each.limit->side, VerdictFigures::dimension_of(*each.limit), last.name, figures_.unit());
      last.bar = svg(doubt_bar_picture(bar, words_.language()), {SvgPalette::page, "bar-" + number});
      // One drawing of a part is enough: at its worst row.
      const bool first = std::none_of(out.rows.begin(), out.rows.end() - 1, [&](const auto& other) { return other.part == last.part; });
      if (first) last.picture = part_drawn(judged_, *each.part, {words_, figures_.unit(), "part-" + number});
    }
    not_judged(rows, out);
    by_eye(out);
    for (const GroupLine& group : whole_.groups) {
      out.groups.push_back({words_.say(group_message(group.kind)), state_name(group.word), words_.joined_line(group.words)});
    }
    notices(rows, out);
    out.cautions.push_back(words_.say("rule.who_decides"));
    return out;
  }

 private:
  [[nodiscard]] std::string say(const Message& message) const { return words_.say(message); }

  /// Acts worth their time, best first, then useless ones with why, then whose error the doubt hangs on. Nothing: it is not worked out.
  [[nodiscard]] std::optional<std::vector<std::string>> what_settles(const std::string& part, const NextPage& next) const {
    const auto advice = std::find_if(next.parts.begin(), next.parts.end(), [&](const NextPage::Advice& each) { return each.part == part; });
    if (advice == next.parts.end()) return std::nullopt;
    std::vector<std::string> out;
    for (const NextPage::Act& each : advice->acts) out.push_back(act_line(each, words_.language()));
    if (out.empty()) out.push_back(word_for("next.nothing_worth", words_.language()));
    for (const NextPage::Act& each : advice->useless) out.push_back(act_line(each, words_.language()));
    out.push_back(advice->doubt);
    return out;
  }
  [[nodiscard]] std::string word_text(VerdictWord word) const { return word_for("verdict." + state_name(word), words_.language()); }

  [[nodiscard]] std::string joint() const {
    const JointVerdict& joint = judged_.judgement.joint;
    std::vector<std::string> lines;
    if (joint.forecast) {
      lines.push_back(say({"verdict_page.joint_forecast", {verbatim("chance", in_hundred(*joint.forecast))}}));
    } else if (joint.chance) {
      lines.push_back(say({"verdict_page.joint", {verbatim("chance", in_hundred(*joint.chance))}}));
    }
    if (!joint.left_out.empty() && !lines.empty()) lines.push_back(left_out(joint.left_out));
    if (const auto thumb = thumb_limits_at_work(judged_); !thumb.empty()) lines.push_back(say({"whole.thumb", {verbatim("limits", fettle::joined(thumb))}}));
    return joined(lines, " ");
  }

  /// A few by name; many stand in the list of what is not judged anyway.
  [[nodiscard]] std::string left_out(const std::vector<std::string>& ids) const {
    constexpr std::size_t kFew = 4;
    if (ids.size() > kFew) return say({"verdict_page.joint_left_out_many", {count("n", static_cast<std::int64_t>(ids.size()))}});
    return say({"verdict_page.joint_left_out", {verbatim("parts", names(ids))}});
  }

  /// Of parts by their ids: as people call them.
  [[nodiscard]] std::string names(const std::vector<std::string>& ids) const {
    std::vector<std::string> out;
    for (const std::string& id : ids) {
      const Part* part = part_of(judged_.job, id);
      out.push_back(part == nullptr ? id : say(part_message(*part)));
    }
    return joined(out);
  }

  [[nodiscard]] std::string in_hundred(const Chance& chance) const {
    const double hundred = 100.0 * chance.value;
    constexpr double kAlmost = 99.0;
    if (hundred > kAlmost) return say({"verdict_page.almost_all", {}});
    if (hundred < 100.0 - kAlmost) return say({"verdict_page.almost_none", {}});
    return say({"verdict_page.in_hundred", {decimal("n", print_fixed(hundred >= 50.0 ? std::floor(hundred) : std::ceil(hundred), 0))}});
  }

  [[nodiscard]] std::string rule() const {
    const Rule& rule = judged_.judgement.rule;
    const Argument level = decimal("level", percent(rule.level), "%");
    std::string out = say({"rule." + std::string(rule_kind_name(rule.kind)), {level}}) + " " + say({"rule." + std::string(tie_rule_name(rule.tie)), {}});
    const bool shapes = std::any_of(judged_.groups.begin(), judged_.groups.end(), [](const auto& each) { return each.shape != nullptr; });
    if (shapes && rule.kind == RuleKind::probability) out += " " + say({"rule.chance", {level, decimal("rest", percent(Ratio(1) - rule.level), "%")}});
    return out;
  }

  [[nodiscard]] VerdictPage::Row row(const VerdictRow& from) const {
    const Verdict& verdict = *from.verdict;
    const Limit& limit = *from.limit;
    const Feature feature = from.part->feature;
    VerdictPage::Row out{};
    out.part = verdict.part;
    out.limit = verdict.limit;
    out.name = words_.title(part_message(from.part->part)) + " · " + figures_.definition_name(limit.definition, feature);
    out.where = figures_.place(verdict.measured_where, from.part->layout);
    out.state = state_name(verdict.word);
    out.word = word_text(verdict.word);
    out.overruled = from.taken && from.taken->overrules;
    out.figures = figures(verdict, limit);
    out.chance = chance(verdict);
    out.readings = readings(*from.part);
    out.sizes = sizes(*from.part);
    out.moved = moved(from);
    out.limit_line = say({"verdict_page.limit_line", {verbatim("side", VerdictFigures::side_sign(limit)), verbatim("bound", figures_.exact(verdict.bound, limit)),
                                                      verbatim("typed", figures_.typed_bound(limit)), verbatim("definition", capital(figures_.definition_name(limit.definition, feature))),
                                                      list("origin", {origin_message(limit)})}});
    out.rule_line = rule_line(verdict);
    out.judged_by = capital(say(judged_by(judged_.groups, verdict).why));
    out.doubt = doubt(verdict.chance_shares.empty() && verdict.doubt ? verdict.doubt->shares : verdict.chance_shares);
    out.definitions = definitions(from);
    if (from.taken) out.taken = taken(*from.taken);
    return out;
  }

  [[nodiscard]] VerdictPage::Taken taken(const TakenByPerson& from) const {
    const char* word = from.taken->word == TakenWord::within ? "within" : "beyond";
    return {from.who, word, from.taken->why, from.at};
  }

  [[nodiscard]] std::string figures(const Verdict& verdict, const Limit& limit) const {
    std::vector<Message> parts;
    if (verdict.as_measured) parts.push_back({"verdict_page.as_measured", {verbatim("value", figures_.exact(*verdict.as_measured, limit))}});
    if (verdict.best) {
      parts.push_back({"verdict_page.best", {verbatim("best", figures_.estimate(verdict.best->median, limit)), verbatim("low", figures_.bare(verdict.best->low, limit)),
                                             verbatim("high", figures_.bare(verdict.best->high, limit))}});
    } else if (verdict.doubt) {
      parts.push_back({"verdict_page.plus_minus", {verbatim("best", figures_.bare(verdict.doubt->estimate, limit)), verbatim("u", figures_.estimate(verdict.doubt->standard_uncertainty, limit))}});
    }
    std::vector<Argument> bound = {verbatim("side", VerdictFigures::side_sign(limit)), verbatim("bound", figures_.exact(verdict.bound, limit))};
    const bool page = !limit.origin.page.empty() && !limit.origin.rule_of_thumb;
    if (page) bound.push_back(verbatim("page", limit.origin.page));
    parts.push_back({limit.origin.rule_of_thumb ? "verdict_page.limit_by_thumb" : page ? "verdict_page.limit_on_page" : "verdict_page.limit", std::move(bound)});
    return words_.joined_line(parts, " · ");
  }

  [[nodiscard]] std::string chance(const Verdict& verdict) const {
    if (verdict.chance) return chance_sentence(*verdict.chance, words_.language());
    if (verdict.doubt) {
      const bool clear = verdict.doubt->margin_in_u >= 0.0;
      return say({clear ? "verdict_page.clear_by" : "verdict_page.past_by", {decimal("times", print_fixed(std::abs(verdict.doubt->margin_in_u), 1))}});
    }
    return say({verdict.reading_keeps.value_or(false) ? "why.word.reading.within" : "why.word.reading.beyond", {}});
  }

  [[nodiscard]] std::string rule_line(const Verdict& verdict) const {
    const bool by_chance = verdict.chance && judged_.judgement.rule.kind == RuleKind::probability;
    const std::string key = by_chance ? "why.word.chance." + state_name(verdict.word)
                                      : "why.word." + std::string(rule_kind_name(judged_.judgement.rule.kind)) + "." + state_name(verdict.word);
    return capital(word_text(verdict.word)) + ": " + say({key, {}});
  }

  [[nodiscard]] std::vector<const Kept<Reading>*> readings_of(const PartOnBench& part) const {
    std::vector<std::string> wanted = {part.part.id};
    if (part.part.members) {
      for (const Member& each : *part.part.members) wanted.push_back(each.part);
    }
    std::vector<const Kept<Reading>*> out;
    for (const std::string& id : wanted) {
      for (const auto& kept : judged_.job.readings) {
        if (kept.value.part == id) out.push_back(&kept);
      }
    }
    return out;
  }

  [[nodiscard]] std::vector<VerdictPage::Reading> readings(const PartOnBench& part) const {
    std::vector<std::pair<std::size_t, VerdictPage::Reading>> found;
    for (const Kept<Reading>* kept : readings_of(part)) {
      const Reading& reading = kept->value;
      const PartOnBench* own = find_part(judged_.parts, reading.part);
      const auto station = own->layout.find_station(reading.station);
      const auto direction = own->layout.find_direction(reading.direction);
      if (!station || !direction) continue;
      const std::size_t cell = own->layout.cell(*station, *direction);
      std::string where = say(cell_message(own->layout, cell));
      if (own->part.id != part.part.id) where = say(part_message(own->part)) + ", " + where;
      VerdictPage::Reading out{std::move(where), reading.quantity.text, {}, who(*kept), note(reading)};
      if (const auto size = sizes_.find(kept->event); size != sizes_.end()) out.said = figures_.size(size->second->as_measured, own->layout.quantity(cell));
      found.emplace_back(own->part.id == part.part.id ? cell : cell + part.layout.cells(), std::move(out));
    }
    std::stable_sort(found.begin(), found.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    std::vector<VerdictPage::Reading> out;
    for (auto& each : found) out.push_back(std::move(each.second));
    return out;
  }

  [[nodiscard]] std::string who(const Kept<Reading>& kept) const {
    if (kept.value.read_by) return *kept.value.read_by;
    const auto found = who_.find(kept.event);
    return found == who_.end() ? std::string() : *found->second;
  }

  [[nodiscard]] std::string note(const Reading& reading) const {
    if (reading.flag == ReadingFlag::none) return reading.note;
    const std::string flag = say({"verdict_page.left_out", {word("flag", "flag." + std::string(flag_name(reading.flag)))}});
    return reading.note.empty() ? flag : flag + ": " + reading.note;
  }

  [[nodiscard]] std::vector<VerdictPage::SizeAt> sizes(const PartOnBench& part) const {
    std::vector<VerdictPage::SizeAt> out;
    for (const GroupEstimate& group : judged_.groups) {
      for (const PartEstimate& estimate : group.parts) {
        if (estimate.part != part.part.id) continue;
        const auto block = group.shape ? block_of(*group.shape, part.part.id) : std::nullopt;
        for (const auto& place : estimate.places) {
          if (!place) continue;
          const Dimension quantity = part.layout.quantity(place->cell);
          VerdictPage::SizeAt each{place_name(part.layout, place->cell), figures_.size(place->as_measured, quantity), figures_.size(place->estimate, quantity)};
          if (block) {
            const PlacePosterior posterior = place_posterior(*group.shape, *block, place->cell);
            each.best = words_.number(print_length(posterior.mean_mm, figures_.unit())) + " ± " + figures_.size(posterior.sd_mm, quantity);
          }
          out.push_back(std::move(each));
        }
      }
    }
    return out;
  }

  [[nodiscard]] std::string place_name(const Layout& layout, std::size_t cell) const {
    return figures_.place({{cell / layout.directions.size()}, layout.directions.size() == 1 ? std::vector<std::size_t>{} : std::vector<std::size_t>{cell % layout.directions.size()}}, layout);
  }

  [[nodiscard]] bool foot_read(const PartOnBench& part) const {
    return std::any_of(judged_.sizes.sizes.begin(), judged_.sizes.sizes.end(), [&](const Size& each) {
      return each.part == part.part.id && part.layout.stations[each.cell / part.layout.directions.size()].role == StationRole::reference;
    });
  }

  [[nodiscard]] std::vector<std::string> moved(const VerdictRow& from) const {
    const Verdict& verdict = *from.verdict;
    const Limit& limit = *from.limit;
    std::vector<std::string> out;
    if (const auto& best = verdict.best) {
      out.push_back(say({"verdict_page.from_readings", {verbatim("where", figures_.place(verdict.measured_where, from.part->layout)), verbatim("value", figures_.estimate(best->plain, limit))}}));
      out.push_back(say({foot_read(*from.part) ? "verdict_page.moved_errors_foot" : "verdict_page.moved_errors", {verbatim("moved", figures_.moved_by(best->moved_by_errors, limit))}}));
      out.push_back(say({"verdict_page.moved_shape", {verbatim("moved", figures_.moved_by(best->moved_by_shape, limit))}}));
    }
    for (const Message& each : verdict.remarks) out.push_back(say(each));
    return out;
  }

  [[nodiscard]] std::vector<VerdictPage::Doubt> doubt(const std::vector<Share>& shares) const {
    std::vector<VerdictPage::Doubt> out;
    for (const Share& each : shares) {
      constexpr double kShown = 0.005;
      const std::string figure = each.share < kShown ? "< 1" : print_fixed(each.share * 100.0, 0);
      const std::string scope = "scope." + std::string(each.scope ? scope_name(*each.scope) : "part");
      out.push_back({say({"verdict_page.doubt_of", {word("component", "error." + each.component), word("scope", scope)}}), figure + " %",
                     static_cast<int>(std::lround(std::clamp(each.share, 0.0, 1.0) * 100.0))});
    }
    return out;
  }

  [[nodiscard]] std::optional<VerdictPage::Definitions> definitions(const VerdictRow& from) const {
    const auto found = std::find_if(judged_.side_by_side.begin(), judged_.side_by_side.end(),
                                    [&](const SideBySide& each) { return each.part == from.verdict->part && each.limit == from.verdict->limit; });
    if (found == judged_.side_by_side.end() || found->under.size() < 2) return std::nullopt;
    VerdictPage::Definitions out;
    std::int64_t otherwise = 0;
    for (const SideBySide::Under& each : found->under) {
      if (each.verdict.word != from.verdict->word) ++otherwise;
      out.rows.push_back({figures_.definition_name(each.definition, from.part->feature), each.verdict.as_measured ? figures_.exact(*each.verdict.as_measured, *from.limit) : "–",
                          state_name(each.verdict.word), word_text(each.verdict.word), each.definition == from.limit->definition});
    }
    const Argument all = count("all", static_cast<std::int64_t>(found->under.size()));
    out.line = otherwise == 0 ? say({"verdict_page.definitions_agree", {all}}) : say({"verdict_page.definitions_differ", {count("n", otherwise), all}});
    return out;
  }

  /// A part of which nothing was read says so once.
  void not_judged(const VerdictRows& rows, VerdictPage& out) const {
    std::map<std::string, bool> said;
    for (const VerdictRow& each : rows.not_judged) {
      const Problems& reasons = each.verdict->reasons;
      const bool unread = std::any_of(reasons.begin(), reasons.end(), [](const Problem& reason) { return reason.code == "verdict.not_read"; });
      if (unread && said[each.part->part.id]) continue;
      if (unread) said[each.part->part.id] = true;
      std::string name = words_.title(part_message(each.part->part));
      if (!unread) name += " · " + figures_.definition_name(each.limit->definition, each.part->feature);
      out.not_judged.push_back({each.part->part.id, std::move(name), reasons.empty() ? "" : what_and_do(reasons.front(), words_.language())});
    }
    for (const PartState* each : rows.without_verdict) {
      const Part* part = part_of(judged_.job, each->part);
      std::vector<std::string> why;
      for (const Message& reason : each->reasons) why.push_back(say(reason));
      out.not_judged.push_back({each->part, words_.title(part_message(*part)), joined(why, " ")});
    }
  }

  void by_eye(VerdictPage& out) const {
    for (const FindingWeight weight : {FindingWeight::condemns, FindingWeight::needs_test, FindingWeight::note}) {
      for (const auto& kept : judged_.job.findings) {
        const Finding& finding = kept.value;
        if (finding.weight != weight) continue;
        const Part* part = part_of(judged_.job, finding.part);
        const std::string name = part == nullptr ? finding.part : words_.title(part_message(*part));
        const std::string what = finding.where.empty() ? finding.what : finding.what + " (" + finding.where + ")";
        out.by_eye.push_back({finding.part, say({eye_key(weight), {verbatim("part", name), verbatim("what", what)}})});
      }
    }
  }

  void notices(const VerdictRows& rows, VerdictPage& out) const {
    for (const VerdictRow& each : rows.judged) {
      if (!each.taken || !each.taken->overrules) continue;
      const char* key = each.taken->taken->word == TakenWord::within ? "verdict_page.overruled_within" : "verdict_page.overruled_beyond";
      out.notices.push_back(say({key, {verbatim("who", each.taken->who), verbatim("part", words_.title(part_message(each.part->part))),
                                       verbatim("definition", figures_.definition_name(each.limit->definition, each.part->feature)), verbatim("why", each.taken->taken->why)}}));
    }
    for (const Message& notice : judged_.notices) out.notices.push_back(say(notice));
  }

  const RecordedJob& recorded_;
  const JudgedJob& judged_;
  const WholeEngine& whole_;
  PageWords words_;
  VerdictFigures figures_;
  std::map<std::string, const std::string*> who_;
  std::map<std::string, const Size*> sizes_;
};

}  // namespace

VerdictPage verdict_page(const RecordedJob& recorded, const JudgedJob& judged, const WholeEngine& whole, Language language) {
  return VerdictSpeaker(recorded, judged, whole, language).run();
}

std::string chance_sentence(const Chance& kept, Language language) {
  constexpr double kAlmost = 99.0;
  const double hundred = 100.0 * kept.value;
  const bool keeps = hundred >= 50.0;
  const double side = keeps ? hundred : 100.0 - hundred;
  if (side > kAlmost) return word_for(keeps ? "chance_page.keeps_almost" : "chance_page.past_almost", language);
  const Message message{keeps ? "chance_page.keeps" : "chance_page.past", {decimal("n", print_fixed(std::floor(side), 0))}};
  return sentence(message, language);
}

}  // namespace fettle
