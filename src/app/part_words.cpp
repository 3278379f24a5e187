#include "app/part_words.h"

#include <algorithm>

#include "base/assertion.h"
#include "base/joined.h"
#include "text/sentence.h"

namespace fettle {
namespace {

/// The key that is made for the kind, or the one for all others.
std::string key_for(const std::string& beginning, const std::string& kind) {
  const std::string own = beginning + "." + kind;
  return has_key(own, Language::english) ? own : beginning + ".other";
}

const std::string& name_of(const Part& part) { return part.position.empty() ? part.id : part.position; }

}  // namespace

std::string name_of(const Job& job) { return job.opened && !job.opened->value.name.empty() ? job.opened->value.name : job.id; }

Message part_message(const Part& part) {
  if (part.position.empty()) return {"part_name.id", {verbatim("id", part.id)}};
  return {key_for("part_name", part.kind), {verbatim("position", part.position), word("kind", "kind." + part.kind)}};
}

Message parts_message(const std::vector<const Part*>& parts) {
  FETTLE_ASSERT(!parts.empty(), "no parts to name");
  if (parts.size() == 1) return part_message(*parts.front());
  std::vector<std::string> names;
  for (const Part* each : parts) names.push_back(name_of(*each));
  const std::string& kind = parts.front()->kind;
  return {key_for("parts_name", kind), {list("positions", {and_message(names)}), word("kind", "kind." + kind)}};
}

std::vector<Message> parts_by_kind(const std::vector<const Part*>& parts) {
  std::vector<std::vector<const Part*>> kinds;
  for (const Part* each : parts) {
    if (kinds.empty() || kinds.back().front()->kind != each->kind) kinds.emplace_back();
    kinds.back().push_back(each);
  }
  std::vector<Message> out;
  for (const auto& each : kinds) out.push_back(parts_message(each));
  return out;
}

Message group_message(const std::string& kind) { return {key_for("group_name", kind), {word("kind", "kind." + kind)}}; }

Message and_message(const std::vector<std::string>& words) {
  FETTLE_ASSERT(!words.empty(), "no words to join");
  if (words.size() == 1) return {"words.one", {verbatim("word", words.front())}};
  return {"words.and", {verbatim("others", joined(std::vector<std::string>(words.begin(), words.end() - 1))), verbatim("last", words.back())}};
}

Argument part_argument(std::string name, const Part& part) { return list(std::move(name), {part_message(part)}); }

const Part* part_of(const Job& job, const std::string& id) {
  const auto found = std::find_if(job.parts.begin(), job.parts.end(), [&](const auto& each) { return each.value.id == id; });
  return found == job.parts.end() ? nullptr : &found->value;
}

std::vector<Message> engine_facts(const EngineDescribed& engine) {
  std::vector<Message> out;
  const auto add = [&](const char* key, const std::string& text) {
    if (!text.empty()) out.push_back({key, {verbatim("text", text)}});
  };
  add("head.number_one", engine.number_one_end);
  if (engine.turns) {
    out.push_back({*engine.turns == NeedleSide::clockwise ? "head.turns_clockwise" : "head.turns_anticlockwise", {verbatim("from", engine.seen_from)}});
  }
  add("head.thrust", engine.thrust_side);
  return out;
}

}  // namespace fettle
