#include "server/engine_page.h"

#include "app/bench_list.h"
#include "app/bench.h"
#include "app/limit_origin.h"
#include "app/part_words.h"
#include "server/gauge_words.h"
#include "server/page_words.h"

namespace fettle {
namespace {

std::vector<std::string> facts_of(const Job& job, const PageWords& words) {
  std::vector<std::string> out;
  if (job.opened && !job.opened->value.remark.empty()) out.push_back(job.opened->value.remark);
  if (!job.engine) return out;
  const EngineDescribed& engine = job.engine->value;
  if (!engine.name.empty()) out.push_back(engine.name);
  for (const Message& each : engine_facts(engine)) out.push_back(words.title(each));
  return out;
}

std::string head_of(const WholeEngine& whole, const PageWords& words) {
  std::vector<Message> parts = {{"engine_head.planned", {count("planned", static_cast<std::int64_t>(whole.planned))}},
                                {"engine_head.in", {count("in", static_cast<std::int64_t>(whole.in))}}};
  if (whole.minutes) parts.push_back({"engine_head.minutes", {count("minutes", *whole.minutes)}});
  return words.joined_line(parts, " · ");
}

}  // namespace

EnginePage engine_page(const RecordedJob& recorded, const WholeEngine& whole, const Asking& asking, Language language) {
  const PageWords words(language);
  const Job& job = recorded.job;
  EnginePage out{job.id, name_of(job), words.joined_line(whole.line), position_of(recorded), std::string(unit_definition(shown_unit(job)).symbol),
                 decimal_mark_of(job), facts_of(job, words), head_of(whole, words), words.line_or_none(whole.worry), {}, {}, {}, {}, {}};
  if (whole.read_next) {
    std::string what = words.say(part_message(*whole.read_next->part));
    if (whole.read_next->cell) {
      what += ", " + words.say(cell_message(on_bench(job, *whole.read_next->part, catalogue()).layout, *whole.read_next->cell));
    }
    out.read_next = EnginePage::Seen{whole.read_next->part->id, std::move(what)};
  }
  for (const GroupLine& group : whole.groups) {
    EnginePage::Group each{group.kind, words.say(group_message(group.kind)), std::string(verdict_word_name(group.word)), words.joined_line(group.words), {}};
    for (const PartLine& part : group.parts) {
      each.parts.push_back({part.part->id, words.title(part_message(*part.part)), std::string(measured_state_name(part.progress.state)),
                            std::string(verdict_word_name(word_of(part.state))), words.say(part.line)});
    }
    out.groups.push_back(std::move(each));
  }
  for (const GaugeNow& each : gauges_now(recorded, nullptr, asking)) {
    out.gauges.push_back({each.gauge->id, gauge_name(each, words), each.setting ? setting_words(*each.setting, words) : words.say(not_set_message(each))});
  }
  for (const auto& kept : job.limits) {
    const Limit& limit = kept.value;
    const std::string bound = limit.per ? words.say(Message{"limit.per", {verbatim("bound", limit.bound.text), verbatim("per", limit.per->text)}}) : limit.bound.text;
    out.limits.push_back({limit.id, limit.kind, limit.definition, std::string(role_name(limit.role)), std::string(side_name(limit.side)), bound,
                          words.say(origin_message(limit)), limit.origin.rule_of_thumb});
  }
  for (const auto& kept : job.findings) {
    const Finding& finding = kept.value;
    out.findings.push_back({finding.part, words.say(seen_message(finding))});
  }
  return out;
}

ActsDonePage acts_done_page(const std::vector<ActInWords>& acts, Language language) {
  const PageWords words(language);
  ActsDonePage out;
  for (const ActInWords& each : acts) out.events.push_back({each.event, each.at, each.who, words.title(each.words), each.standing});
  return out;
}

}  // namespace fettle
