#include "wire/border_json.h"

#include "wire/act_head.h"
#include "wire/event_json.h"
#include "wire/event_reader.h"
#include "wire/json_values.h"
#include "wire/page_words.h"

namespace fettle {
namespace json {
namespace {

/// A name or a line of a gauge may hold anything; what is no UTF-8 is shown as such.
std::string one_line(const Json& out) { return out.dump(-1, ' ', false, Json::error_handler_t::replace); }

Json device_of(const std::optional<NamedDevice>& device) {
  if (!device) return nullptr;
  return {{"id", device->id}, {"name", device->name}};
}

Json taker_of(const std::optional<NamedDevice>& device) {
  if (!device) return nullptr;
  return {{"device", device->id}, {"name", device->name}};
}

Json person_of(const PresentLine& person) {
  return {{"device", person.device}, {"who", person.who}, {"part", person.part}, {"holds", person.holds}};
}

Json reading_of(const std::optional<ReadByTemplate>& reading) {
  if (!reading) return nullptr;
  return {{"text", reading->text}, {"unit", reading->unit}};
}

/// Reads an object member by member, as `members` names them, and refuses any other.
template <class T, class Members>
Result<T> read_asked(std::string_view text, const Members& members) {
  const Place place{"request", std::nullopt, std::nullopt};
  Problems problems;
  const auto node = read_line(text, place, problems);
  if (!node) return problems;
  EventReader reader(*node, Spot{"", place, problems});
  T out{};
  members(reader, out);
  reader.finish();
  if (!problems.empty()) return problems;
  return out;
}

}  // namespace
}  // namespace json

std::string refusal_json(const std::vector<SaidProblem>& problems) {
  json::Json out = json::page("fettle-refusal");
  out["problems"] = json::Json::array();
  for (const SaidProblem& each : problems) out["problems"].push_back({{"code", each.code}, {"what", each.what}, {"do", each.to_do}});
  return json::one_line(out);
}

std::string hello_json(const Hello& hello) {
  json::Json out = json::page("fettle-hello");
  out["program"] = hello.program;
  out["token"] = hello.token;
  out["secure"] = hello.secure;
  out["loopback"] = hello.loopback;
  out["device"] = json::device_of(hello.device);
  out["record"] = hello.record;
  return json::one_line(out);
}

std::string pairing_json(const Pairing& pairing) {
  json::Json out = json::page("fettle-pairing");
  out["code"] = pairing.code;
  out["address"] = pairing.address;
  out["fingerprint"] = pairing.fingerprint;
  out["picture"] = pairing.picture;
  out["minutes"] = pairing.minutes;
  return json::one_line(out);
}

std::string paired_json(const NamedDevice& device) {
  json::Json out = json::page("fettle-paired");
  out["device"] = json::device_of(device);
  return json::one_line(out);
}

std::string devices_json(const std::vector<DeviceLine>& devices) {
  json::Json out = json::page("fettle-devices");
  out["devices"] = json::Json::array();
  for (const DeviceLine& each : devices) {
    out["devices"].push_back({{"id", each.id},
                              {"name", each.name},
                              {"paired_at", each.paired_at},
                              {"last_seen", each.last_seen ? json::Json(*each.last_seen) : json::Json(nullptr)},
                              {"revoked", each.revoked}});
  }
  return json::one_line(out);
}

std::string present_event_json(const std::string& job, const std::vector<PresentLine>& people) {
  json::Json out = {{"job", job}, {"people", json::Json::array()}};
  for (const PresentLine& each : people) out["people"].push_back(json::person_of(each));
  return json::one_line(out);
}

std::string present_json(const std::optional<PresentLine>& held_by) {
  json::Json out = json::page("fettle-present");
  out["held"] = !held_by.has_value();
  out["held_by"] = held_by ? json::Json{{"device", held_by->device}, {"who", held_by->who}} : json::Json(nullptr);
  return json::one_line(out);
}

std::string ports_json(const std::vector<PortLine>& ports, const std::vector<WaitingLine>& waiting, const std::optional<NotKept>& not_kept) {
  json::Json out = json::page("fettle-ports");
  out["ports"] = json::Json::array();
  for (const PortLine& each : ports) {
    out["ports"].push_back({{"id", each.id}, {"name", each.name}, {"there", each.there}, {"taken_by", json::taker_of(each.taken_by)}});
  }
  out["waiting"] = json::Json::array();
  for (const WaitingLine& each : waiting) {
    out["waiting"].push_back({{"number", each.number},
                              {"port", each.port},
                              {"text", each.text},
                              {"received_at", each.received_at},
                              {"reading", json::reading_of(each.reading)}});
  }
  out["not_kept"] = not_kept ? json::Json{{"count", not_kept->count}, {"sentence", not_kept->sentence}} : json::Json(nullptr);
  return json::one_line(out);
}

std::string gauge_line_event_json(const WaitingLine& line) {
  return json::one_line({{"number", line.number}, {"port", line.port}, {"text", line.text}, {"reading", json::reading_of(line.reading)}});
}

std::string tray_event_json(std::int64_t waiting) { return json::one_line({{"waiting", waiting}}); }

std::string port_event_json(const std::string& port, bool there) { return json::one_line({{"port", port}, {"there", there}}); }

std::string done_json() { return json::one_line(json::page("fettle-done")); }

Result<AskedPair> read_asked_pair(std::string_view text) {
  return json::read_asked<AskedPair>(text, [](json::EventReader& reader, AskedPair& out) {
    reader("code", out.code);
    reader("name", out.name);
  });
}

Result<std::string> read_asked_device(std::string_view text) {
  return json::read_asked<std::string>(text, [](json::EventReader& reader, std::string& out) { reader("device", out); });
}

Result<AskedPresent> read_asked_present(std::string_view text) {
  Result<AskedPresent> read = json::read_asked<AskedPresent>(text, [](json::EventReader& reader, AskedPresent& out) {
    reader("device", out.device);
    reader("who", out.who);
    reader("part", out.part);
    reader("holds", out.holds);
  });
  if (!read.ok()) return read;
  Problems problems = problems_of_name("device", read.value().device);
  const Problems of_who = problems_of_name("who", read.value().who);
  problems.insert(problems.end(), of_who.begin(), of_who.end());
  if (!problems.empty()) return problems;
  return read;
}

Result<AskedPort> read_asked_port(std::string_view text) {
  return json::read_asked<AskedPort>(text, [](json::EventReader& reader, AskedPort& out) {
    reader("port", out.port);
    reader("device", out.device);
  });
}

Result<AskedDone> read_asked_done(std::string_view text) {
  return json::read_asked<AskedDone>(text, [](json::EventReader& reader, AskedDone& out) {
    reader("number", out.number);
    reader("device", out.device);
    reader("job", out.job);
    reader("act", out.act);
  });
}

}  // namespace fettle
