#include "app/new_engine.h"

#include <algorithm>
#include <array>
#include <map>
#include <set>

#include "base/digest.h"
#include "base/joined.h"
#include "catalogue/catalogue.h"
#include "catalogue/engine_plan.h"
#include "catalogue/strip_steps.h"
#include "wire/event_json.h"

namespace fettle {
namespace {

constexpr std::int64_t kMostOfOneKind = 99;
constexpr std::size_t kLongestId = 40;
constexpr std::size_t kLongestName = 200;
constexpr int kMostOfOneName = 1000;

/// "ä" and its like as they are written where there are none.
struct Spelling {
  std::string_view letter;
  std::string_view plain;
};
constexpr std::array<Spelling, 7> kSpellings = {{{"ä", "ae"}, {"ö", "oe"}, {"ü", "ue"}, {"Ä", "ae"}, {"Ö", "oe"}, {"Ü", "ue"}, {"ß", "ss"}}};

std::string spelt_plainly(std::string text) {
  for (const Spelling& each : kSpellings) {
    for (std::size_t at = text.find(each.letter); at != std::string::npos; at = text.find(each.letter)) text.replace(at, each.letter.size(), each.plain);
  }
  return text;
}

Problems problems_of_engine(const NewEngineAct& act) {
  Problems out;
  for (const std::string& each : act.left_out.value_or(std::vector<std::string>{})) {
    if (catalogue().kind(each) == nullptr) out.push_back({"job.kind_unknown", {}, {verbatim("kind", each), verbatim("known", joined_ids(catalogue().kinds))}});
  }
  const Catalogue& known = catalogue();
  if (act.name.find_first_not_of(' ') == std::string::npos || act.name.size() > kLongestName) {
    out.push_back({"acts.name_empty", {}, {count("most", static_cast<std::int64_t>(kLongestName))}});
  }
  if (act.groups.empty() && !act.answers) out.push_back({"acts.no_groups", {}, {}});
  std::set<std::string> seen;
  for (const NewEngineAct::Group& each : act.groups) {
    const Kind* kind = known.kind(each.kind);
    if (kind == nullptr) out.push_back({"job.kind_unknown", {}, {verbatim("kind", each.kind), verbatim("known", joined_ids(known.kinds))}});
    if (kind != nullptr && !kind->members.empty()) out.push_back({"acts.assembly_group", {}, {word("kind", "kind." + each.kind)}});
    if (each.count < 1 || each.count > kMostOfOneKind) out.push_back({"acts.parts_range", {}, {count("most", kMostOfOneKind)}});
    if (!seen.insert(each.kind).second) out.push_back({"acts.group_twice", {}, {verbatim("kind", each.kind)}});
  }
  return out;
}

/// The answers as they were given; one question twice is a problem.
EngineAnswers answers_of(const NewEngineAct& act, Problems& problems) {
  EngineAnswers out;
  for (const NewEngineAct::Answer& each : *act.answers) {
    if (!out.emplace(each.question, each.answer).second) problems.push_back({"engine.question_twice", {}, {verbatim("id", each.question)}});
  }
  return out;
}

Part worn_part(std::string id, std::string kind, std::string position) {
  const StepKind step = comes_in_steps(kind) ? StepKind::unknown : StepKind::standard;
  return {std::move(id), std::move(kind), std::move(position), std::nullopt, {step, {}, ""}, Condition::worn};
}

/// What follows from the answers, less what is left out and every assembly that would lack a member.
std::vector<Part> parts_of_plan(const EnginePlan& plan, const NewEngineAct& act) {
  const std::vector<std::string> left_out = act.left_out.value_or(std::vector<std::string>{});
  std::vector<Part> out;
  std::set<std::string> there;
  for (const PlannedPart& each : plan.parts) {
    if (std::find(left_out.begin(), left_out.end(), each.kind) != left_out.end()) continue;
    Part part = worn_part(each.id, each.kind, each.position);
    bool whole = true;
    for (const PlannedMember& member : each.members) whole = whole && there.contains(member.part);
    if (!whole) continue;
    if (!each.members.empty()) {
      part.members.emplace();
      for (const PlannedMember& member : each.members) part.members->push_back({member.role, member.part});
    }
    there.insert(part.id);
    out.push_back(std::move(part));
  }
  return out;
}

std::vector<Envelope> envelopes_of(const NewEngineAct& act, std::vector<Payload> payloads, const std::string& job) {
  std::vector<Envelope> out;
  std::int64_t number = 0;
  for (Payload& payload : payloads) {
    const std::string id = number == 0 ? act.head.id : digest({"new-engine", act.head.id, std::to_string(number)});
    EventEnvelope event{id, job, act.head.device, act.head.sequence, act.head.made_at, act.head.who, std::move(payload)};
    out.push_back({job, id, event_json(event)});
    ++number;
  }
  return out;
}

}  // namespace

std::string id_of_name(const std::string& name) {
  std::string out;
  for (const char c : spelt_plainly(name)) {
    const char lower = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    const bool stands = (lower >= 'a' && lower <= 'z') || (lower >= '0' && lower <= '9');
    if (stands) {
      out += lower;
    } else if (!out.empty() && out.back() != '-') {
      out += '-';
    }
  }
  out = out.substr(0, kLongestId);
  while (!out.empty() && out.back() == '-') out.pop_back();
  return out.empty() ? "engine" : out;
}

std::string id_of_part(const std::string& kind, std::int64_t number) {
  return part_name_of_kind(kind) + "-" + std::to_string(number);
}

Result<std::vector<Payload>> engine_payloads(const NewEngineAct& act) {
  Problems problems = problems_of_engine(act);
  EngineDescribed engine{act.engine, std::nullopt, {}, act.number_one_end.value_or(""), act.turns, act.seen_from.value_or(""), act.thrust_side.value_or(""), ""};
  std::vector<Part> parts;
  std::vector<Payload> layouts;
  if (act.answers) {
    const EngineAnswers answers = answers_of(act, problems);
    if (const auto plan = take(plan_engine(answers), problems)) {
      engine.cylinders = plan->cylinders;
      engine.banks = plan->banks;
      parts = parts_of_plan(*plan, act);
      for (const PlannedLayout& each : plan->layouts) layouts.emplace_back(LayoutChosen{each.kind, each.layout});
      if (parts.empty() && act.groups.empty()) problems.push_back({"engine.nothing_left", {}, {}});
    }
  }
  if (!problems.empty()) return problems;
  std::map<std::string, std::int64_t> last;
  for (const Part& each : parts) ++last[each.kind];
  for (const auto& each : act.groups) {
    if (each.kind == "cylinder-bore" && !act.answers) engine.cylinders = each.count;
    const std::int64_t before = last[each.kind];
    for (std::int64_t number = before + 1; number <= before + each.count; ++number) {
      Part part = worn_part(id_of_part(each.kind, number), each.kind, std::to_string(number));
      if (!act.answers) part.step = {StepKind::standard, {}, ""};
      parts.push_back(std::move(part));
    }
  }
  std::vector<Payload> out = {JobOpened{act.name, act.decimal_mark, std::nullopt, act.shown_unit, ""}, std::move(engine)};
  for (Payload& each : layouts) out.push_back(std::move(each));
  for (Part& each : parts) out.emplace_back(PartEntered{std::move(each)});
  return out;
}

Result<std::string> new_engine(Store& store, const NewEngineAct& act) {
  const auto payloads = engine_payloads(act);
  if (!payloads.ok()) return payloads.problems();
  const std::string name = id_of_name(act.name);
  std::string job = name;
  for (int number = 2; number < kMostOfOneName; ++number) {
    const auto there = store.last(job) ? store.events(job, 0) : std::vector<AcceptedEvent>{};
    if (!there.empty() && there.front().envelope.id == act.head.id) return job;
    if (there.empty()) {
      const auto accepted = store.accept_after(envelopes_of(act, payloads.value(), job), 0);
      if (accepted.ok()) return job;
      if (accepted.problems().front().code != "store.moved_on") return accepted.problems();
      continue;  // somebody was quicker: look at the same id again
    }
    job = name + "-" + std::to_string(number);
  }
  return Problem{"acts.name_empty", {}, {count("most", static_cast<std::int64_t>(kLongestName))}};
}

}  // namespace fettle
