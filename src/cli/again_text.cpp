#include "cli/again_text.h"

#include <algorithm>

#include "app/limit_origin.h"
#include "catalogue/catalogue.h"
#include "cli/judged_words.h"
#include "cli/marks.h"
#include "cli/table.h"

namespace fettle {
namespace {

class AgainText : private JudgedWords {
 public:
  AgainText(const JudgedJob& judged, const Look& look) : JudgedWords(judged, look) {}

  [[nodiscard]] std::string all() const {
    std::string out;
    for (const JudgedAgain& each : judged_.again) out += one(each) + "\n";
    return out;
  }

 private:
  [[nodiscard]] std::string one(const JudgedAgain& again) const {
    const FoundOut& found = again.found;
    const bool known = found.shows_too_much.has_value();
    const Argument how_far = verbatim("how_far", known ? found.shows_too_much->text : found.may_be_off->text);
    std::string out = say({known ? "again.shows" : "again.may_be_off", {verbatim("gauge", found.gauge), how_far, verbatim("what", found.what)}}) + "\n";
    out += "  " + (found.last_good ? say({"again.since", {verbatim("setting", *found.last_good)}}) : say({"again.never", {}})) + "\n";
    if (again.readings.empty()) return out + "  " + say({"again.nothing", {}}) + "\n";
    out += "  " + say({"again.rests", {count("readings", static_cast<std::int64_t>(again.readings.size())), verbatim("settings", joined(again.settings)),
                                       verbatim("parts", joined(again.parts))}}) + "\n";
    out += columns(readings(again), kTableIndent);
    if (judged_.judgement.rule.kind == RuleKind::reading) return out + "  " + say({"again.rule_of_reading", {}}) + "\n";
    return out + verdicts(again) + states(again);
  }

  [[nodiscard]] std::vector<std::vector<std::string>> readings(const JudgedAgain& again) const {
    std::vector<std::vector<std::string>> rows = {{say({"column.part", {}}), say({"column.where", {}}), say({"column.read", {}}),
                                                   say({"column.moved", {}}), say({"column.u_before", {}}), say({"column.u_now", {}})}};
    for (const JudgedAgain::InDoubt& each : again.readings) {
      const auto kept = std::find_if(judged_.job.readings.begin(), judged_.job.readings.end(), [&](const auto& one) { return one.event == each.reading; });
      const Reading& reading = kept->value;
      std::vector<std::string> row = {reading.part, say({"cell", {station_argument("word", reading.station)}}) + ", " +
                                                        say({"cell", {direction_argument("word", reading.direction)}}),
                                      reading.quantity.text};
      if (each.figures) {
        const Layout& layout = layout_of(reading.part);
        const FigureStyle style = style_read(layout.quantity(layout.cell(*layout.find_station(reading.station), *layout.find_direction(reading.direction))), unit_);
        const auto figure = [&](double value) { return number(shown(value, style)) + " " + style.unit; };
        row.insert(row.end(), {(each.figures->moved > 0.0 ? "+" : "") + figure(each.figures->moved), figure(each.figures->u_before), figure(each.figures->u_now)});
      } else {
        row.push_back(word_for("flag." + std::string(flag_name(reading.flag)), look_.language));
      }
      rows.push_back(std::move(row));
    }
    return rows;
  }

  /// Those that changed; the rest by their number.
  [[nodiscard]] std::string verdicts(const JudgedAgain& again) const {
    std::vector<std::vector<std::string>> rows = {{say({"column.part", {}}), say({"column.limit", {}}), say({"column.before", {}}),
                                                   say({"column.now", {}})}};
    std::int64_t unchanged = 0;
    for (const JudgedAgain::Twice& each : again.verdicts) {
      const Limit& limit = limit_of(each.now.limit);
      const std::string before = word_and_chance(each.before, limit);
      const std::string now = word_and_chance(each.now, limit);
      if (before == now) {
        ++unchanged;
      } else {
        rows.push_back({each.now.part, each.now.limit + thumb_sign(limit), before, now});
      }
    }
    std::string out = rows.size() > 1 ? columns(rows, kTableIndent) : "";
    if (unchanged > 0) out += "  " + say({"again.unchanged", {count("verdicts", unchanged)}}) + "\n";
    return out;
  }

  [[nodiscard]] std::string states(const JudgedAgain& again) const {
    const auto change = [&](const std::string& what, const std::string& before, const std::string& now) {
      const bool same = before == now;
      return "  " + say({same ? "again.stays" : "again.becomes", {verbatim("what", what), verbatim("before", before), verbatim("now", now)}}) + "\n";
    };
    std::string out;
    for (const JudgedAgain::StateTwice& each : again.states) {
      out += change(each.part, marked(each.before, look_.language, look_.colour), marked(each.now, look_.language, look_.colour));
    }
    return out + change(say({"again.engine", {}}), marked(again.engine_before, look_.language, look_.colour),
                        marked(again.engine_now, look_.language, look_.colour));
  }

  [[nodiscard]] std::string word_and_chance(const Verdict& verdict, const Limit& limit) const {
    const std::string mark = limit.role == LimitRole::fresh ? marked_new(verdict.word, look_.language) : marked(verdict.word, look_.language, look_.colour);
    return verdict.chance ? mark + " " + chance_in_words(*verdict.chance) : mark;
  }
};

}  // namespace

std::string again_text(const JudgedJob& judged, const Look& look) { return AgainText(judged, look).all(); }

}  // namespace fettle
