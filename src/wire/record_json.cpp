#include "wire/record_json.h"

#include <algorithm>

#include "wire/json_values.h"

namespace fettle {
namespace {

using json::Json;
using json::kIndent;

Json document(const char* format) { return {{"format", format}, {"version", 1}}; }

Json fault(const StoreFault& fault) { return {{"where", fault.where}, {"problem", json::problem(fault.problem)}}; }

Json faults(const std::vector<StoreFault>& list) {
  Json out = Json::array();
  for (const StoreFault& each : list) out.push_back(fault(each));
  return out;
}

Json job_row(const JobRow& row) {
  Json out = {{"job", row.job}, {"name", row.name}, {"engine", row.engine}, {"serial", row.serial}, {"people", row.people},
              {"events", row.events}, {"readings", row.readings}};
  if (!row.first_made_at.empty()) out["first_day"] = row.first_made_at;
  if (!row.last_made_at.empty()) out["last_day"] = row.last_made_at;
  if (!row.word.empty()) out["word"] = row.word;
  out["parts"] = Json::array();
  for (const PartRow& each : row.parts) out["parts"].push_back({{"part", each.part}, {"kind", each.kind}, {"state", each.state}});
  return out;
}

Json verdict_line(const VerdictLine& line) {
  Json out = {{"word", line.word}};
  if (!line.chance.empty()) out["chance"] = line.chance;
  if (!line.measured.empty()) out["measured"] = line.measured;
  return out;
}

Json changed(const ChangedVerdict& each) {
  const VerdictLine& named = each.now.word.empty() ? each.before : each.now;
  Json out = {{"job", each.job}, {"program", each.program}};
  if (!named.part.empty()) out["part"] = named.part;
  if (!named.limit.empty()) out["limit"] = named.limit;
  if (!each.before.word.empty()) out["before"] = verdict_line(each.before);
  if (!each.now.word.empty()) out["now"] = verdict_line(each.now);
  return out;
}

Json history_line(const HistoryLine& line) {
  Json out = {{"position", line.position}, {"event", line.event}, {"type", std::string(type_of(line.payload).name)}, {"made_at", line.made_at},
              {"who", line.who}, {"stands", line.stands}};
  if (!line.why.empty()) out["why"] = line.why;
  return out;
}

Json rebuild(const RebuildOfPart& each) {
  Json out = {{"job", each.job}, {"name", each.name}, {"day", each.day}, {"part", each.part.id}, {"state", std::string(state_word_name(each.state))}};
  if (each.without_thumb) out["without_thumb"] = std::string(state_word_name(*each.without_thumb));
  out["verdicts"] = Json::array();
  for (const Verdict& verdict : each.verdicts) {
    const auto& limits = each.judged.limits;
    const bool thumb = std::any_of(limits.begin(), limits.end(), [&](const auto& limit) { return limit.value.id == verdict.limit && limit.value.origin.rule_of_thumb; });
    Json one = {{"limit", verdict.limit}, {"word", std::string(verdict_word_name(verdict.word))}, {"rule_of_thumb", thumb}};
    if (verdict.chance) one["chance"] = json::chance(*verdict.chance);
    out["verdicts"].push_back(std::move(one));
  }
  out["events"] = Json::array();
  for (const HistoryLine& line : each.lines) out["events"].push_back(history_line(line));
  if (!each.problems.empty()) out["problems"] = json::problems(each.problems);
  return out;
}

}  // namespace

std::string found_jobs_json(const FoundJobs& found) {
  Json out = document("fettle-found-jobs");
  out["all"] = found.all;
  out["jobs"] = Json::array();
  for (const JobRow& each : found.rows) out["jobs"].push_back(job_row(each));
  return out.dump(kIndent) + "\n";
}

std::string verified_record_json(const VerifiedRecord& verified) {
  Json out = document("fettle-verified-record");
  out["jobs"] = verified.jobs;
  out["events"] = verified.events;
  out["files"] = verified.files;
  out["judgements"] = verified.judgements;
  out["stopped"] = verified.stopped;
  out["faults"] = faults(verified.faults);
  return out.dump(kIndent) + "\n";
}

std::string judged_all_json(const JudgedAll& judged) {
  Json out = document("fettle-judged-all");
  out["jobs"] = judged.jobs;
  out["judged"] = judged.judged;
  out["skipped"] = judged.skipped;
  out["compared"] = judged.compared;
  out["stopped"] = judged.stopped;
  out["changed"] = Json::array();
  for (const ChangedVerdict& each : judged.changed) out["changed"].push_back(changed(each));
  out["refused"] = faults(judged.refused);
  return out.dump(kIndent) + "\n";
}

std::string part_history_json(const std::vector<RebuildOfPart>& history) {
  Json out = document("fettle-part-history");
  out["rebuilds"] = Json::array();
  for (const RebuildOfPart& each : history) out["rebuilds"].push_back(rebuild(each));
  return out.dump(kIndent) + "\n";
}

}  // namespace fettle
