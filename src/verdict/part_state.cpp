#include "verdict/part_state.h"

#include <algorithm>
#include <iterator>

#include "verdict/answered_by_test.h"

namespace fettle {
namespace {

class State {
 public:
  State(const PartOnBench& part, const std::vector<JudgedLimit>& judged) : part_(part), judged_(judged) { gather_lines(); }

  PartState by_eye_and_gauge(const std::vector<const Finding*>& findings) {
    std::vector<Message> condemned;
    std::vector<Message> to_test;
    for (const Finding* finding : findings) {
      if (finding->weight == FindingWeight::condemns) condemned.push_back(seen_message(*finding));
      if (finding->weight == FindingWeight::needs_test && !answered_by_test(*finding, findings)) to_test.push_back({"reason.needs_test", {verbatim("what", finding->what)}});
    }
    if (!condemned.empty()) return {part_.part.id, StateWord::beyond, std::move(condemned)};
    PartState gauged = by_gauge();
    if (gauged.word != StateWord::beyond && !to_test.empty()) return {part_.part.id, StateWord::not_judged, std::move(to_test)};
    return gauged;
  }

 private:
  /// What a book prints as one limit: several verdicts where it does not say under which definition.
  struct Line {
    std::string id;
    std::vector<const JudgedLimit*> under;
    VerdictWord word;
  };

  void gather_lines() {
    for (const JudgedLimit& each : judged_) {
      const bool unsaid = each.limit->origin.sheet && !each.limit->origin.sheet->unsaid.empty();
      const std::string& id = unsaid ? each.limit->origin.sheet->unsaid : each.limit->id;
      auto line = std::find_if(lines_.begin(), lines_.end(), [&](const Line& there) { return unsaid && there.id == id; });
      if (line == lines_.end()) line = lines_.insert(lines_.end(), Line{id, {}, VerdictWord::not_judged});
      line->under.push_back(&each);
    }
    for (Line& each : lines_) each.word = word_under_all(each.under);
  }

  /// Only what holds under every definition holds.
  static VerdictWord word_under_all(const std::vector<const JudgedLimit*>& under) {
    const auto all = [&](VerdictWord word) { return std::all_of(under.begin(), under.end(), [&](const auto* each) { return each->verdict->word == word; }); };
    for (const VerdictWord word : {VerdictWord::within, VerdictWord::beyond, VerdictWord::too_close}) {
      if (all(word)) return word;
    }
    const bool any_not_judged = std::any_of(under.begin(), under.end(), [](const auto* each) { return each->verdict->word == VerdictWord::not_judged; });
    return any_not_judged ? VerdictWord::not_judged : VerdictWord::too_close;
  }

  [[nodiscard]] std::vector<Message> limits_with(LimitRole role, VerdictWord word, const char* key) const {
    std::vector<Message> out;
    for (const Line& each : lines_) {
      if (each.under.front()->limit->role != role || each.word != word) continue;
      out.push_back(differs(each) ? as_the_definition_says(each) : Message{said_of(*each.under.front()->limit, key), {verbatim("limit", each.id), word_of(*each.under.front()->limit)}});
    }
    return out;
  }

  static bool differs(const Line& line) {
    return std::any_of(line.under.begin(), line.under.end(), [&](const auto* each) { return each->verdict->word != line.under.front()->verdict->word; });
  }

  /// "taper: within under tap-1, beyond under tap-5".
  [[nodiscard]] Message as_the_definition_says(const Line& line) const {
    std::vector<Message> under;
    for (const JudgedLimit* each : line.under) {
      under.push_back({"reason.unsaid.one", {verbatim("definition", each->limit->definition), fettle::word("word", "verdict." + std::string(verdict_word_name(each->verdict->word)))}});
    }
    return {"reason.unsaid", {verbatim("limit", line.id), list("under", std::move(under))}};
  }

  /// The same of a rule of thumb says that it is one.
  static std::string said_of(const Limit& limit, const std::string& key) { return limit.origin.rule_of_thumb ? key + "_thumb" : key; }

  [[nodiscard]] Argument word_of(const Limit& limit) const {
    return fettle::word("definition", "definition." + limit.definition + "." + std::string(feature_name(part_.feature)));
  }

  [[nodiscard]] LimitSide unworn_side() const {
    return part_.feature == Feature::inside ? LimitSide::at_least : LimitSide::at_most;
  }

  /// No bore wears smaller than new, no shaft larger: a wrong step, the wrong row, or a misreading.
  [[nodiscard]] std::vector<Message> not_worn_that_way() const {
    std::vector<Message> out;
    for (const JudgedLimit& each : judged_) {
      const bool size = each.limit->definition == "size-1" || each.limit->definition == "size-3";
      if (each.limit->role != LimitRole::fresh || each.limit->side != unworn_side() || !size) continue;
      if (each.verdict->word == VerdictWord::beyond) {
        out.push_back({said_of(*each.limit, "reason.not_worn_that_way"), {verbatim("limit", each.limit->id), word_of(*each.limit)}});
      }
    }
    return out;
  }

  [[nodiscard]] PartState by_gauge() const {
    const auto role_count = [&](LimitRole role) {
      return std::count_if(lines_.begin(), lines_.end(), [&](const Line& each) { return each.under.front()->limit->role == role; });
    };
    // What comes new or fresh from the machine is held to the manufacturing limits first.
    const bool must_be_new = part_.part.condition == Condition::fresh || part_.part.condition == Condition::machined;
    const LimitRole wanted = must_be_new ? LimitRole::fresh : LimitRole::service;
    const LimitRole other = must_be_new ? LimitRole::service : LimitRole::fresh;
    const LimitRole role = role_count(wanted) > 0 ? wanted : other;
    if (role_count(role) == 0) return {part_.part.id, StateWord::not_judged, {{"reason.no_limit", {}}}};
    if (auto found = limits_with(role, VerdictWord::beyond, "reason.beyond"); !found.empty()) {
      return {part_.part.id, StateWord::beyond, std::move(found)};
    }
    if (auto found = not_worn_that_way(); part_.part.condition == Condition::worn && !found.empty()) {
      return {part_.part.id, StateWord::not_judged, std::move(found)};
    }
    if (auto found = limits_with(role, VerdictWord::not_judged, "reason.not_judged"); !found.empty()) {
      return {part_.part.id, StateWord::not_judged, std::move(found)};
    }
    if (auto found = limits_with(role, VerdictWord::too_close, "reason.too_close"); !found.empty()) {
      return {part_.part.id, StateWord::too_close, std::move(found)};
    }
    const auto fresh = role_count(LimitRole::fresh);
    const auto fresh_within = static_cast<std::ptrdiff_t>(limits_with(LimitRole::fresh, VerdictWord::within, "").size());
    // The side where nothing wears says nothing of newness by itself.
    const bool wearing_side = std::any_of(judged_.begin(), judged_.end(), [&](const auto& each) {
      return each.limit->role == LimitRole::fresh && each.limit->definition == "size-1";
    });
    if (wearing_side && fresh == fresh_within) return {part_.part.id, StateWord::as_new, {{"reason.as_new", {}}}};
    return {part_.part.id, StateWord::serviceable, {{"reason.serviceable", {}}}};
  }

  const PartOnBench& part_;
  const std::vector<JudgedLimit>& judged_;
  std::vector<Line> lines_;
};

}  // namespace

PartState state_of(const PartOnBench& part, const std::vector<JudgedLimit>& judged, const std::vector<const Finding*>& findings) {
  PartState out = State(part, judged).by_eye_and_gauge(findings);
  for (const JudgedLimit& each : judged) {
    const bool open = each.limit->origin.sheet && each.limit->origin.sheet->open;
    if (open && each.verdict->word != VerdictWord::not_judged) out.reasons.push_back({"reason.open_question", {verbatim("limit", each.limit->id)}});
  }
  std::vector<JudgedLimit> of_books;
  std::copy_if(judged.begin(), judged.end(), std::back_inserter(of_books), [](const JudgedLimit& each) { return !each.limit->origin.rule_of_thumb; });
  if (of_books.size() == judged.size()) return out;
  const StateWord without = State(part, of_books).by_eye_and_gauge(findings).word;
  if (without == out.word) return out;
  out.without_thumb = without;
  out.reasons.push_back({"reason.by_thumb", {word("without", "state." + std::string(state_word_name(without)))}});
  return out;
}

}  // namespace fettle
