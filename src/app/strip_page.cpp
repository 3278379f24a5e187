#include "app/strip_page.h"

#include <algorithm>

#include "app/part_words.h"
#include "catalogue/file_words.h"

namespace fettle {
namespace {

std::vector<std::string> ids_of(const std::vector<const Part*>& parts) {
  std::vector<std::string> out;
  for (const Part* each : parts) out.push_back(each->id);
  return out;
}

StripPage::Line line_of(const Job& job, const StripLine& line, Language language) {
  const StripStep& step = *line.step;
  StripPage::Line out{step.id,
                      std::string(word_of(kStripActs, step.act).value_or("")),
                      std::string(strip_state_name(line.state)),
                      word_for("strip_step." + step.id, language),
                      word_for("strip_why." + step.id, language),
                      sentence(line.line, language),
                      {},
                      {},
                      {},
                      ids_of(line.parts),
                      line.next,
                      {}};
  out.before = step.before;
  for (const std::string& each : step.cautions) out.cautions.push_back(word_for("caution." + each, language));
  for (const Message& each : line.order) out.order.push_back(sentence(each, language));
  for (const auto& each : job.strip_answers) {
    if (each.value.step == step.id) out.event = each.event;
  }
  return out;
}

StripPage::Group group_of(const GroupStep& group, Language language) {
  StripPage::Group out{group.kind, sentence(group_message(group.kind), language), ids_of(group.parts), "mixed", {}, ""};
  if (group.mixed) return out;
  out.step = step_kind_name(group.step.kind);
  if (group.step.offset) out.offset = group.step.offset->text;
  out.seen = group.step.seen_where;
  return out;
}

/// Of the ticks that every engine has: how many of its parts, and when last.
StripPage::Ready ready_of(const Job& job, MeasuredWhen state, Language language) {
  std::vector<std::string> parts;
  std::string last;
  for (const auto& each : job.ready) {
    if (each.value.state != state) continue;
    for (const std::string& part : each.value.parts) {
      if (std::find(parts.begin(), parts.end(), part) == parts.end()) parts.push_back(part);
    }
    last = each.value.at;
  }
  const auto n = static_cast<std::int64_t>(parts.size());
  const char* key = n == 0 ? "ready_line.none" : last.empty() ? "ready_line.some" : "ready_line.at";
  const std::string word(word_of(kMeasuredWhen, state).value_or(""));
  return {word, word_for("made_ready." + word, language),
          sentence({key, {count("n", n), count("all", static_cast<std::int64_t>(job.parts.size())), verbatim("at", last)}}, language), n};
}

}  // namespace

StripPage strip_page(const Job& job, const StripList& list, const std::vector<Message>& worry, std::int64_t position, Language language) {
  StripPage out{};
  out.job = job.id;
  out.name = name_of(job);
  out.position = position;
  out.unit = unit_definition(job.opened ? job.opened->value.shown_unit : UnitId::millimetre).symbol;
  out.head = sentence({"strip_head", {count("answered", static_cast<std::int64_t>(list.answered)), count("all", static_cast<std::int64_t>(list.lines.size()))}}, language);
  for (const Message& each : read_without_ticks(job)) out.warnings.push_back(sentence(each, language));
  std::string worries;
  for (const Message& each : worry) worries += (worries.empty() ? "" : "; ") + sentence(each, language);
  if (!worries.empty()) out.worry = worries;
  if (list.next) out.next = list.lines[*list.next].step->id;
  for (const StripLine& each : list.lines) out.lines.push_back(line_of(job, each, language));
  for (const GroupStep& each : list.groups) out.groups.push_back(group_of(each, language));
  for (const MeasuredWhen state : {MeasuredWhen::clean, MeasuredWhen::rested}) out.ready.push_back(ready_of(job, state, language));
  return out;
}

}  // namespace fettle
