#include "app/new_engine.h"

#include <algorithm>
#include <array>
#include <set>

#include "base/digest.h"
#include "base/joined.h"
#include "catalogue/catalogue.h"
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

struct ShortName {
  std::string_view kind;
  std::string_view name;
};
constexpr std::array<ShortName, 5> kShortNames = {
    {{"cylinder-bore", "bore"}, {"main-journal", "main"}, {"crankpin", "pin"}, {"bearing-housing", "housing"}, {"combustion-chamber", "chamber"}}};

std::string spelt_plainly(std::string text) {
  for (const Spelling& each : kSpellings) {
    for (std::size_t at = text.find(each.letter); at != std::string::npos; at = text.find(each.letter)) text.replace(at, each.letter.size(), each.plain);
  }
  return text;
}

Problems problems_of_engine(const NewEngineAct& act) {
  Problems out;
  const Catalogue& known = catalogue();
  if (act.name.find_first_not_of(' ') == std::string::npos || act.name.size() > kLongestName) {
    out.push_back({"acts.name_empty", {}, {count("most", static_cast<std::int64_t>(kLongestName))}});
  }
  if (act.groups.empty()) out.push_back({"acts.no_groups", {}, {}});
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

std::vector<Payload> payloads_of(const NewEngineAct& act) {
  std::vector<Payload> out = {JobOpened{act.name, act.decimal_mark, std::nullopt, act.shown_unit, ""}};
  EngineDescribed engine{act.engine, std::nullopt, {}, act.number_one_end.value_or(""), act.turns, act.seen_from.value_or(""), act.thrust_side.value_or(""), ""};
  for (const auto& each : act.groups) {
    if (each.kind == "cylinder-bore") engine.cylinders = each.count;
  }
  out.emplace_back(std::move(engine));
  for (const auto& each : act.groups) {
    for (std::int64_t number = 1; number <= each.count; ++number) {
      out.emplace_back(PartEntered{{id_of_part(each.kind, number), each.kind, std::to_string(number), std::nullopt, {StepKind::standard, {}, ""}, Condition::worn}});
    }
  }
  return out;
}

std::vector<Envelope> envelopes_of(const NewEngineAct& act, const std::string& job) {
  std::vector<Envelope> out;
  std::int64_t number = 0;
  for (Payload& payload : payloads_of(act)) {
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
  const auto found = std::find_if(kShortNames.begin(), kShortNames.end(), [&](const ShortName& each) { return each.kind == kind; });
  return (found == kShortNames.end() ? kind : std::string(found->name)) + "-" + std::to_string(number);
}

Result<std::string> new_engine(Store& store, const NewEngineAct& act) {
  if (Problems problems = problems_of_engine(act); !problems.empty()) return problems;
  const std::string name = id_of_name(act.name);
  std::string job = name;
  for (int number = 2; number < kMostOfOneName; ++number) {
    const auto there = store.last(job) ? store.events(job, 0) : std::vector<AcceptedEvent>{};
    if (!there.empty() && there.front().envelope.id == act.head.id) return job;
    if (there.empty()) {
      const auto accepted = store.accept_after(envelopes_of(act, job), 0);
      if (accepted.ok()) return job;
      if (accepted.problems().front().code != "store.moved_on") return accepted.problems();
      continue;  // somebody was quicker: look at the same id again
    }
    job = name + "-" + std::to_string(number);
  }
  return Problem{"acts.name_empty", {}, {count("most", static_cast<std::int64_t>(kLongestName))}};
}

}  // namespace fettle
