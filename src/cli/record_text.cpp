#include "cli/record_text.h"

#include <algorithm>
#include <array>

#include "app/limit_origin.h"
#include "base/joined.h"
#include "catalogue/catalogue.h"
#include "catalogue/figure_style.h"
#include "cli/marks.h"
#include "cli/table.h"

namespace fettle {
namespace {

constexpr std::size_t kShownDigits = 8;  // of an event's id: enough to name it by

std::string say(const Message& message, Language language) { return sentence(message, language); }

/// A row keeps words as texts; whatever it says that is no word of ours is shown as it stands.
std::string engine_word(const std::string& name, const Look& look) {
  for (const VerdictWord each : {VerdictWord::within, VerdictWord::beyond, VerdictWord::too_close, VerdictWord::not_judged}) {
    if (verdict_word_name(each) == name) return marked(each, look.language, look.colour);
  }
  return name.empty() ? marked(VerdictWord::not_judged, look.language, look.colour) : name;
}

std::string part_word(const std::string& name, const Look& look) {
  for (const StateWord each : {StateWord::as_new, StateWord::serviceable, StateWord::beyond, StateWord::too_close, StateWord::not_judged}) {
    if (state_word_name(each) == name) return marked(each, look.language, look.colour);
  }
  return name;
}

std::string days(const JobRow& row) {
  return row.first_made_at == row.last_made_at ? row.first_made_at : row.first_made_at + " – " + row.last_made_at;
}

/// "not judged", or word and chance, as it would be printed.
std::string line_words(const VerdictLine& line, const std::string& none) {
  if (line.word.empty()) return none;
  return line.chance.empty() ? line.word : line.word + " " + line.chance;
}

class HistoryText {
 public:
  HistoryText(const RebuildOfPart& rebuild, const Look& look) : rebuild_(rebuild), look_(look) {}

  std::string run() const {
    std::string out = rebuild_.day + "  " + rebuild_.name + "  (" + rebuild_.job + ")\n";
    if (rebuild_.part.kind.empty()) return out + problems();
    out += "  " + rebuild_.part.id + "  " + word_for("kind." + rebuild_.part.kind, look_.language) + ", " +
           word_for("condition." + std::string(condition_name(rebuild_.part.condition)), look_.language) + ", " +
           (rebuild_.part.step.offset ? rebuild_.part.step.offset->text : word_for("step." + std::string(step_kind_name(rebuild_.part.step.kind)), look_.language)) +
           "  " + marked(rebuild_.state, look_.language, look_.colour) + "\n";
    if (rebuild_.without_thumb) {
      out += "  " + say({"reason.by_thumb", {word("without", "state." + std::string(state_word_name(*rebuild_.without_thumb)))}}, look_.language) + "\n";
    }
    return out + problems() + verdicts() + events();
  }

 private:
  [[nodiscard]] std::string problems() const {
    std::string out;
    for (const Problem& each : rebuild_.problems) out += "  " + sentence(each, look_.language) + "\n";
    return out;
  }

  [[nodiscard]] std::string verdicts() const {
    const UnitId unit = rebuild_.judged.opened ? rebuild_.judged.opened->value.shown_unit : UnitId::millimetre;
    std::vector<std::vector<std::string>> rows;
    std::string thumb;
    for (const Verdict& each : rebuild_.verdicts) {
      if (!each.as_measured) continue;
      const auto limit = std::find_if(rebuild_.judged.limits.begin(), rebuild_.judged.limits.end(), [&](const auto& one) { return one.value.id == each.limit; });
      const FigureStyle style = style_as_typed(catalogue().definition(limit->value.definition)->dimension, unit, limit->value.bound.quantity.unit);
      if (limit->value.origin.rule_of_thumb) thumb += "  " + each.limit + ": " + say(origin_message(limit->value), look_.language) + "\n";
      rows.push_back({each.limit + thumb_sign(limit->value), with_decimal_mark(shown(*each.as_measured, style), look_.language) + (style.unit == "1" ? "" : " " + style.unit),
                      limit->value.role == LimitRole::fresh ? marked_new(each.word, look_.language) : marked(each.word, look_.language, look_.colour)});
    }
    return rows.empty() ? "" : columns(rows, kTableIndent) + thumb;
  }

  [[nodiscard]] std::string events() const {
    std::vector<std::vector<std::string>> rows;
    for (const HistoryLine& each : rebuild_.lines) {
      rows.push_back({each.event.substr(0, kShownDigits), what(each.payload), each.who, each.made_at, stands(each)});
    }
    return say({"record.events", {}}, look_.language) + "\n" + columns(rows, kTableIndent);
  }

  [[nodiscard]] std::string stands(const HistoryLine& line) const {
    if (line.stands) return "";
    return say({"record.set_aside", {verbatim("why", line.why)}}, look_.language);
  }

  [[nodiscard]] std::string what(const Payload& payload) const {
    if (const auto* taken = std::get_if<ReadingTaken>(&payload)) {
      const Reading& reading = taken->reading;
      const std::string place = say({"cell", {station_argument("word", reading.station)}}, look_.language) + ", " +
                                say({"cell", {direction_argument("word", reading.direction)}}, look_.language);
      const std::string flag = reading.flag == ReadingFlag::none ? "" : " (" + word_for("flag." + std::string(flag_name(reading.flag)), look_.language) + ")";
      const std::string instead =
          reading.supersedes ? " <- " + reading.supersedes->substr(0, kShownDigits) : "";  // the reading that it corrects
      return place + ": " + reading.quantity.text + flag + instead;
    }
    if (const auto* seen = std::get_if<FindingSeen>(&payload)) return seen->finding.what;
    if (const auto* withdrawn = std::get_if<EventWithdrawn>(&payload)) {
      return say({"record.withdraws", {verbatim("event", withdrawn->event.substr(0, kShownDigits))}}, look_.language);
    }
    if (const auto* attached = std::get_if<FileAttached>(&payload)) {
      if (attached->note.empty()) return attached->name;
      return say({"record.attached_with", {verbatim("name", attached->name), verbatim("note", attached->note)}}, look_.language);
    }
    return say({"record.entered", {}}, look_.language);
  }

  const RebuildOfPart& rebuild_;
  const Look& look_;
};

}  // namespace

std::string found_jobs_text(const FoundJobs& found, const FindQuery& query, const Look& look) {
  if (found.all == 0) return say({"record.none_found", {}}, look.language) + "\n";
  std::vector<std::vector<std::string>> rows;
  for (const JobRow& row : found.rows) {
    rows.push_back({row.job, row.name, row.serial, days(row), engine_word(row.word, look), joined(row.people)});
    if (!query.part && !query.state) continue;
    for (const PartRow& part : row.parts) rows.push_back({"", "  " + part.part, "", "", part_word(part.state, look), ""});
  }
  std::string out = columns(rows, 0);
  const auto last = static_cast<std::int64_t>(query.skip + found.rows.size());
  if (last < found.all || query.skip > 0) {
    out += say({"record.page", {count("first", static_cast<std::int64_t>(query.skip) + 1), count("last", last), count("all", found.all)}}, look.language) + "\n";
  }
  return out;
}

std::string verified_record_text(const VerifiedRecord& verified, Language language) {
  std::string out = say({"record.looked_at", {count("jobs", verified.jobs), count("events", verified.events), count("files", verified.files),
                                              count("judgements", verified.judgements)}},
                        language) + "\n";
  for (const StoreFault& each : verified.faults) out += each.where + ": " + sentence(each.problem, language) + "\n";
  if (verified.stopped) return out + say({"record.stopped", {}}, language) + "\n";
  return out + say({verified.faults.empty() ? "record.whole" : "record.not_whole", {count("faults", static_cast<std::int64_t>(verified.faults.size()))}}, language) + "\n";
}

std::string judged_all_text(const JudgedAll& judged, Language language) {
  std::string out = say({"record.judged_all", {count("jobs", judged.jobs), count("judged", judged.judged), count("skipped", judged.skipped),
                                               count("compared", judged.compared)}},
                        language) + "\n";
  std::vector<std::vector<std::string>> rows;
  const std::string none = say({"record.was_not_there", {}}, language);
  for (const ChangedVerdict& each : judged.changed) {
    const VerdictLine& named = each.now.word.empty() ? each.before : each.now;
    const std::string what = named.part.empty() ? say({"again.engine", {}}, language) : named.part + ", " + named.limit;
    rows.push_back({each.job, what, each.program + ": " + line_words(each.before, none), line_words(each.now, none)});
  }
  if (rows.empty() && judged.compared > 0) out += say({"record.all_the_same", {}}, language) + "\n";
  if (!rows.empty()) out += say({"record.changed", {}}, language) + "\n" + columns(rows, kTableIndent);
  for (const StoreFault& each : judged.refused) out += each.where + ": " + sentence(each.problem, language) + "\n";
  if (judged.stopped) out += say({"record.stopped_judging", {}}, language) + "\n";
  return out;
}

std::string part_history_text(const std::vector<RebuildOfPart>& history, const Look& look) {
  std::string out;
  for (const RebuildOfPart& each : history) out += (out.empty() ? "" : "\n") + HistoryText(each, look).run();
  return out;
}

}  // namespace fettle
