#include "app/index_job.h"
#include "base/document.h"
#include "server/answers.h"
#include "server/desk.h"
#include "server/gate.h"
#include "server/qr_picture.h"
#include "wire/border_json.h"

namespace fettle {
namespace {

constexpr std::size_t kMostAskedBytes = 4'096;
constexpr std::size_t kLongestDeviceName = 80;
/// Browsers keep a cookie for at most 400 days.
constexpr const char* kCookieRest = "; Path=/; Max-Age=34560000; HttpOnly; Secure; SameSite=Strict";

std::optional<NamedDevice> named_device(Desk& desk, const HttpRequest& request) {
  const auto device = request.device ? desk.devices.device(*request.device) : std::nullopt;
  return device ? std::optional(NamedDevice{device->id, device->name}) : std::nullopt;
}

HttpResponse hello(Desk& desk, const HttpRequest& request) {
  if (request.device) desk.devices.seen(*request.device);
  // What comes from elsewhere in plain text is refused before it gets here, and browsers trust this machine's own address.
  return answered(hello_json({program_version(), desk.token, true, request.loopback, named_device(desk, request), desk.record_name}));
}

HttpResponse pairing(Desk& desk, const HttpRequest& request) {
  if (!request.loopback) return refused(403, {Problem{"server.only_here", {}, {}}}, request.language);
  if (desk.address.empty()) return refused(409, {Problem{"server.not_open", {}, {}}}, request.language);
  const std::string code = desk.devices.new_code();
  const std::string address = pairing_address(desk, code);
  return answered(pairing_json({code, address, desk.fingerprint, qr_picture(address, word_for("server.pairing_picture", request.language)),
                                Devices::kPairingMinutes}));
}

bool is_device_name(const std::string& name) { return !name.empty() && name.size() <= kLongestDeviceName && is_utf8(name) && !has_control_character(name); }

HttpResponse pair(Desk& desk, const HttpRequest& request) {
  const Result<AskedPair> asked = read_asked_pair(request.body);
  if (!asked.ok()) return refused(400, asked.problems(), request.language);
  if (!is_device_name(asked.value().name)) return refused(400, {Problem{"server.device_name", {}, {count("most", static_cast<std::int64_t>(kLongestDeviceName))}}}, request.language);
  const auto paired = desk.devices.pair(asked.value().code, asked.value().name);
  if (!paired) return refused(401, {Problem{"server.wrong_code", {}, {}}}, request.language);
  HttpResponse out = answered(paired_json({paired->device.id, paired->device.name}));
  out.headers.emplace_back("Set-Cookie", std::string(kKeyCookie) + "=" + paired->key + kCookieRest);
  return out;
}

HttpResponse devices(Desk& desk) {
  std::vector<DeviceLine> lines;
  for (const StoredDevice& each : desk.devices.all()) {
    lines.push_back({each.id, each.name, each.paired_at, each.last_seen.empty() ? std::nullopt : std::optional(each.last_seen), each.revoked});
  }
  return answered(devices_json(lines));
}

HttpResponse revoke(Desk& desk, const HttpRequest& request) {
  const Result<std::string> asked = read_asked_device(request.body);
  if (!asked.ok()) return refused(400, asked.problems(), request.language);
  if (!desk.devices.revoke(asked.value())) return refused(404, {Problem{"server.no_such_device", {}, {verbatim("device", asked.value())}}}, request.language);
  desk.live.end_of_key(asked.value());
  return devices(desk);
}

void tell_present(Desk& desk, const std::string& job) { desk.live.tell(job, std::nullopt, "present", present_event_json(job, desk.presence.people(job))); }

HttpResponse present(Desk& desk, const HttpRequest& request) {
  const std::string& job = request.words.at("job");
  const Result<AskedPresent> read = read_asked_present(request.body);
  if (!read.ok()) return refused(400, read.problems(), request.language);
  const AskedPresent& asked = read.value();
  if (!desk.store.last(job)) return refused(404, {Problem{"record.no_such_job", {}, {verbatim("job", job)}}}, request.language);
  std::optional<PresentLine> held_by;
  if (!asked.part) {
    desk.presence.leave(job, asked.device);
  } else {
    const std::string holds = asked.holds.value_or("look");
    if (holds != "round" && holds != "second" && holds != "look") {
      return refused(400, {Problem{"server.holds", {}, {verbatim("text", holds)}}}, request.language);
    }
    held_by = desk.presence.come(job, {asked.device, asked.who, *asked.part, holds}, desk.milliseconds());
  }
  if (!held_by) tell_present(desk, job);
  return answered(present_json(held_by));
}

HttpResponse ports(Desk& desk, const HttpRequest& request) {
  std::optional<NotKept> not_kept;
  if (const std::int64_t lost = desk.gauges.not_kept(); lost > 0) not_kept = NotKept{lost, sentence(Message{"server.lines_not_kept", {count("n", lost)}}, request.language)};
  return answered(ports_json(desk.gauges.ports(), desk.gauges.waiting(), not_kept));
}

HttpResponse take_port(Desk& desk, const HttpRequest& request, bool takes) {
  const Result<AskedPort> asked = read_asked_port(request.body);
  if (!asked.ok()) return refused(400, asked.problems(), request.language);
  const auto own = named_device(desk, request);
  const std::string name = own ? own->name : word_for("server.this_machine", request.language);
  const bool found = takes ? desk.gauges.take(asked.value().port, {asked.value().device, name}) : desk.gauges.leave(asked.value().port, asked.value().device);
  if (!found) return refused(404, {Problem{"server.no_such_port", {}, {verbatim("port", asked.value().port)}}}, request.language);
  return ports(desk, request);
}

HttpResponse line_done(Desk& desk, const HttpRequest& request) {
  const Result<AskedDone> asked = read_asked_done(request.body);
  if (!asked.ok()) return refused(400, asked.problems(), request.language);
  // Two devices may put the same line aside, and one may say so twice when an answer was lost: it is gone either way.
  (void)desk.gauges.done(asked.value().number);
  return ports(desk, request);
}

}  // namespace

std::string pairing_address(const Desk& desk, const std::string& code) {
  std::string print;
  for (const char c : desk.fingerprint) {
    if (c != ':') print += c;
  }
  return desk.address + "/#/pair/" + code + "/" + print;
}

std::vector<HttpRoute> desk_routes(Desk& desk) {
  const auto get = [](const char* path, HttpHandler handler) { return HttpRoute{"GET", path, false, 0, std::move(handler)}; };
  const auto post = [](const char* path, HttpHandler handler) { return HttpRoute{"POST", path, true, kMostAskedBytes, std::move(handler)}; };
  return {get("/api/hello", [&desk](const HttpRequest& request) { return hello(desk, request); }),
          post("/api/pairing", [&desk](const HttpRequest& request) { return pairing(desk, request); }),
          post("/api/pair", [&desk](const HttpRequest& request) { return pair(desk, request); }),
          get("/api/devices", [&desk](const HttpRequest&) { return devices(desk); }),
          post("/api/devices/revoke", [&desk](const HttpRequest& request) { return revoke(desk, request); }),
          post("/api/jobs/{job}/present", [&desk](const HttpRequest& request) { return present(desk, request); }),
          get("/api/ports", [&desk](const HttpRequest& request) { return ports(desk, request); }),
          post("/api/ports/take", [&desk](const HttpRequest& request) { return take_port(desk, request, true); }),
          post("/api/ports/leave", [&desk](const HttpRequest& request) { return take_port(desk, request, false); }),
          post("/api/gauge-lines/done", [&desk](const HttpRequest& request) { return line_done(desk, request); })};
}

}  // namespace fettle
