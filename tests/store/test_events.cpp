#include "store/test_events.h"

#include <array>
#include <map>
#include <ostream>

#include "base/digest.h"
#include "numeric/xoshiro.h"

namespace fettle {
namespace {

std::string with_digits(std::int64_t number, std::size_t digits) {
  std::string out = std::to_string(number);
  return std::string(digits - std::min(digits, out.size()), '0') + out;
}

void look_at_job(Store& store, const std::string& job, const std::vector<Acknowledged>& acknowledged, std::vector<std::string>& wrong) {
  const std::vector<AcceptedEvent> events = store.events(job, 0);
  for (const ChainBreak& each : chain_breaks(events)) wrong.push_back(job + " " + std::to_string(each.position) + ": chain " + each.what);
  std::map<std::string, std::vector<AcceptedEvent>> by_id;
  for (const AcceptedEvent& each : events) by_id[each.envelope.id].push_back(each);
  for (const auto& [id, found] : by_id) {
    if (found.size() > 1) wrong.push_back(job + " " + id + ": there more than once");
  }
  for (const Acknowledged& each : acknowledged) {
    const auto found = by_id.find(each.envelope.id);
    if (found == by_id.end()) {
      wrong.push_back(job + " " + each.envelope.id + ": acknowledged and lost");
    } else if (found->second.front() != AcceptedEvent{each.envelope, each.accepted}) {
      wrong.push_back(job + " " + each.envelope.id + ": not as acknowledged");
    }
  }
}

}  // namespace

void PrintTo(const AcceptedEvent& event, std::ostream* out) {
  *out << event.envelope.job << " " << event.accepted.position << " " << event.envelope.id.substr(26) << " " << event.accepted.hash.substr(0, 8);
}

std::string id_of(std::int64_t number) { return with_digits(number, 32); }

Envelope some_event(const std::string& job, std::int64_t number) {
  const auto size = static_cast<std::size_t>(200 + number * 37 % 260);
  std::string line = R"({"type":"ReadingTaken","job":")" + job + R"(","number":)" + std::to_string(number) + R"(,"note":"Maß )";
  while (line.size() < size) line += std::to_string(number * 7919 + static_cast<std::int64_t>(line.size())) + " ";
  return {job, id_of(number), line + "\"}"};
}

std::vector<Envelope> some_events(const std::string& job, std::int64_t first, std::int64_t last) {
  std::vector<Envelope> out;
  for (std::int64_t number = first; number <= last; ++number) out.push_back(some_event(job, number));
  return out;
}

std::vector<std::string> broken_promises(Store& store, const std::vector<Acknowledged>& acknowledged) {
  std::vector<std::string> wrong;
  std::map<std::string, std::vector<Acknowledged>> by_job;
  for (const std::string& job : store.jobs()) by_job[job];
  for (const Acknowledged& each : acknowledged) by_job[each.envelope.job].push_back(each);
  for (const auto& [job, promised] : by_job) look_at_job(store, job, promised, wrong);
  for (const StoreFault& fault : store.faults()) wrong.push_back(fault.where + ": " + fault.problem.code);
  return wrong;
}

JobRow some_row(std::int64_t number) {
  static constexpr std::array kStates = {"as-new", "serviceable", "beyond", "too-close", "not-judged"};
  static constexpr std::array kEngines = {"Curlew 3", "GREBE 12", "tern twin", ""};
  static constexpr std::array kPeople = {"Ada", "Bo", "Cleo", "Dag"};
  std::uint64_t state = static_cast<std::uint64_t>(number);
  const auto draw = [&](std::size_t below) { return splitmix64(state) % below; };
  JobRow row{"job-" + with_digits(number, 6), "Engine " + std::to_string(number), kEngines.at(draw(4)), "S" + std::to_string(draw(100000)), {},
             {}, {}, static_cast<std::int64_t>(draw(6000)), static_cast<std::int64_t>(draw(5000)), kStates.at(draw(5)), {}};
  if (draw(8) > 0) {
    const auto day = draw(25);
    row.first_made_at = "2031-05-" + with_digits(static_cast<std::int64_t>(day + 1), 2);
    row.last_made_at = "2031-05-" + with_digits(static_cast<std::int64_t>(day + 1 + draw(5)), 2);
  }
  for (const char* person : kPeople) {
    if (draw(3) == 0) row.people.emplace_back(person);
  }
  const auto parts = draw(4) == 0 ? 0 : draw(12);
  for (std::size_t i = 1; i <= parts; ++i) {
    const std::string kind = i % 3 == 0 ? "main" : i % 3 == 1 ? "bore" : "pin";
    row.parts.push_back({kind + "-" + std::to_string(i), kind, kStates.at(draw(5))});
  }
  return row;
}

StoredFile some_file(std::int64_t number, std::size_t size) {
  StoredFile file{{}, number % 2 == 0 ? "image/jpeg" : "application/pdf", {}, number % 2 == 0 ? "small " + std::to_string(number) : ""};
  std::uint64_t state = static_cast<std::uint64_t>(number);
  while (file.bytes.size() < size) file.bytes += static_cast<char>(splitmix64(state) & 0xFFU);
  file.hash = file_digest(file.bytes);
  return file;
}

StoredJudgement some_judgement(const std::string& job, const std::string& program) {
  StoredJudgement out{job, program, 7, std::string(64, 'a'), "bore-1 within, bore-2 beyond by " + program, {}};
  out.hash = judgement_hash(out);
  return out;
}

}  // namespace fettle
