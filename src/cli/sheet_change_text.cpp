#include "cli/sheet_change_text.h"

#include <algorithm>

#include "cli/judged_words.h"
#include "cli/marks.h"
#include "cli/table.h"

namespace fettle {
namespace {

class SheetChangeText {
 public:
  SheetChangeText(const std::string& sheet, const LimitsChanged& changed, const Look& look) : sheet_(sheet), changed_(changed), look_(look) {}

  [[nodiscard]] std::string all() const {
    if (changed_.limits.empty()) return say({"sheet_change.nothing", {verbatim("sheet", sheet_)}}) + "\n";
    const auto words = std::count_if(changed_.verdicts.begin(), changed_.verdicts.end(), [](const auto& each) { return each.other_word(); });
    std::string out = say({"sheet_change.head", {verbatim("sheet", sheet_), count("limits", static_cast<std::int64_t>(changed_.limits.size())),
                                                 count("words", static_cast<std::int64_t>(words))}}) + "\n";
    return out + limits() + verdicts() + states();
  }

 private:
  [[nodiscard]] std::string say(const Message& message) const { return sentence(message, look_.language); }

  [[nodiscard]] std::string limits() const {
    std::vector<std::vector<std::string>> rows = {{say({"column.limit", {}}), say({"column.before", {}}), say({"column.then", {}})}};
    for (const LimitsChanged::LimitTwice& each : changed_.limits) rows.push_back({(each.now ? each.now : each.before)->id, bound(each.before), bound(each.now)});
    return columns(rows, kTableIndent);
  }
  [[nodiscard]] std::string bound(const std::optional<Limit>& limit) const {
    if (!limit) return "-";
    std::string out = (limit->side == LimitSide::at_most ? "≤ " : "≥ ") + limit->bound.text;
    if (limit->origin.sheet && limit->origin.sheet->open) out += " (" + say({"sheet_change.open", {}}) + ")";
    return out;
  }

  /// Those whose word is another; the rest by their number.
  [[nodiscard]] std::string verdicts() const {
    std::vector<std::vector<std::string>> rows = {{say({"column.part", {}}), say({"column.limit", {}}), say({"column.before", {}}), say({"column.then", {}})}};
    for (const LimitsChanged::VerdictTwice& each : changed_.verdicts) rows.push_back({each.part, each.limit, word(each, each.before), word(each, each.now)});
    return rows.size() > 1 ? columns(rows, kTableIndent) : "  " + say({"sheet_change.no_verdict", {}}) + "\n";
  }
  [[nodiscard]] std::string word(const LimitsChanged::VerdictTwice& of, const std::optional<Verdict>& verdict) const {
    if (!verdict) return "-";
    const std::string mark = of.role == LimitRole::fresh ? marked_new(verdict->word, look_.language) : marked(verdict->word, look_.language, look_.colour);
    return verdict->chance ? mark + " " + chance_in_words(*verdict->chance) : mark;
  }
  [[nodiscard]] std::string states() const {
    std::string out;
    for (const LimitsChanged::StateTwice& each : changed_.states) out += becomes(each.part, marked(each.before, look_.language, look_.colour), marked(each.now, look_.language, look_.colour));
    return out + becomes(say({"again.engine", {}}), marked(changed_.engine_before, look_.language, look_.colour), marked(changed_.engine_now, look_.language, look_.colour));
  }
  [[nodiscard]] std::string becomes(const std::string& what, const std::string& before, const std::string& now) const {
    return "  " + say({before == now ? "again.stays" : "sheet_change.becomes", {verbatim("what", what), verbatim("before", before), verbatim("now", now)}}) + "\n";
  }

  const std::string& sheet_;
  const LimitsChanged& changed_;
  const Look& look_;
};

}  // namespace

std::string sheet_change_text(const std::string& sheet, const LimitsChanged& changed, const Look& look) { return SheetChangeText(sheet, changed, look).all(); }

}  // namespace fettle
