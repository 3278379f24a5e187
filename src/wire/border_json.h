#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace fettle {

// What the server says and is told of itself, its devices, and the gauges and people at work (docs/HTTP.md). Sentences come in finished.

/// A problem with its sentences.
struct SaidProblem {
  std::string code;
  std::string what;
  std::string to_do;
};
[[nodiscard]] std::string refusal_json(const std::vector<SaidProblem>& problems);

struct NamedDevice {
  std::string id;
  std::string name;
};
struct Hello {
  std::string program;
  std::string token;
  bool secure;
  bool loopback;
  std::optional<NamedDevice> device;
  std::string record;
};
[[nodiscard]] std::string hello_json(const Hello& hello);

struct Pairing {
  std::string code;
  std::string address;
  std::string fingerprint;
  std::string picture;
  std::int64_t minutes;
};
[[nodiscard]] std::string pairing_json(const Pairing& pairing);
[[nodiscard]] std::string paired_json(const NamedDevice& device);

struct DeviceLine {
  std::string id;
  std::string name;
  std::string paired_at;
  std::optional<std::string> last_seen;
  bool revoked;
};
[[nodiscard]] std::string devices_json(const std::vector<DeviceLine>& devices);

/// One person at a part.
struct PresentLine {
  std::string device;
  std::string who;
  std::string part;
  std::string holds;  ///< round, second or look
  bool operator==(const PresentLine&) const = default;
};
/// One line, for the stream.
[[nodiscard]] std::string present_event_json(const std::string& job, const std::vector<PresentLine>& people);
/// `held_by`: whoever has what was asked for.
[[nodiscard]] std::string present_json(const std::optional<PresentLine>& held_by);

struct PortLine {
  std::string id;
  std::string name;
  bool there;  ///< plugged in and open
  std::optional<NamedDevice> taken_by;
};
struct ReadByTemplate {
  std::string text;
  std::string unit;  ///< as typed; empty: none
  bool operator==(const ReadByTemplate&) const = default;
};
struct WaitingLine {
  std::int64_t number;
  std::string port;
  std::string text;
  std::string received_at;
  std::optional<ReadByTemplate> reading;
};
/// Lines that nobody will ever see.
struct NotKept {
  std::int64_t count;
  std::string sentence;
};
[[nodiscard]] std::string ports_json(const std::vector<PortLine>& ports, const std::vector<WaitingLine>& waiting, const std::optional<NotKept>& not_kept);
[[nodiscard]] std::string gauge_line_event_json(const WaitingLine& line);
[[nodiscard]] std::string tray_event_json(std::int64_t waiting);
[[nodiscard]] std::string port_event_json(const std::string& port, bool there);
/// {"format":"fettle-done","version":1}
[[nodiscard]] std::string done_json();

// What a device asks. Problems: those of a text that is no JSON; wire.wrong_kind, .missing_key, .unknown_key.

struct AskedPair {
  std::string code;
  std::string name;
};
[[nodiscard]] Result<AskedPair> read_asked_pair(std::string_view text);
[[nodiscard]] Result<std::string> read_asked_device(std::string_view text);
struct AskedPresent {
  std::string device;
  std::string who;
  std::optional<std::string> part;   ///< nothing: leaves
  std::optional<std::string> holds;
};
/// Problems also: wire.not_a_name.
[[nodiscard]] Result<AskedPresent> read_asked_present(std::string_view text);
struct AskedPort {
  std::string port;
  std::string device;
};
[[nodiscard]] Result<AskedPort> read_asked_port(std::string_view text);
struct AskedDone {
  std::int64_t number;
  std::string device;
  std::optional<std::string> job;
  std::optional<std::string> act;
};
[[nodiscard]] Result<AskedDone> read_asked_done(std::string_view text);

}  // namespace fettle
