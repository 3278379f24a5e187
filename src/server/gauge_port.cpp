#include "server/gauge_port.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <optional>

#include "entry/characters.h"

namespace fettle {
namespace {

constexpr std::array<unsigned, 11> kBauds = {300, 600, 1200, 2400, 4800, 9600, 19'200, 38'400, 57'600, 115'200, 230'400};
constexpr std::size_t kLongestName = 24;

bool is_port_name(std::string_view name) {
  return !name.empty() && name.size() <= kLongestName && std::all_of(name.begin(), name.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_';
  });
}

/// "9600" or "4800/7E2".
bool read_speed(std::string_view text, GaugePort& port) {
  const auto slash = text.find('/');
  const std::string_view baud = text.substr(0, slash);
  const auto [end, error] = std::from_chars(baud.data(), baud.data() + baud.size(), port.baud);
  if (error != std::errc() || end != baud.data() + baud.size() || std::find(kBauds.begin(), kBauds.end(), port.baud) == kBauds.end()) return false;
  if (slash == std::string_view::npos) return true;
  const std::string_view letter = text.substr(slash + 1);
  if (letter.size() != 3 || (letter[0] != '7' && letter[0] != '8') || (letter[2] != '1' && letter[2] != '2')) return false;
  port.data_bits = letter[0] == '7' ? 7 : 8;
  port.stop_bits = letter[2] == '1' ? 1 : 2;
  if (letter[1] != 'N' && letter[1] != 'O' && letter[1] != 'E') return false;
  port.parity = letter[1] == 'N' ? Parity::none : letter[1] == 'O' ? Parity::odd : Parity::even;
  return true;
}

Result<GaugePort> read_gauge_port(const std::string& text) {
  const Problem wrong{"server.gauge_option", {}, {verbatim("text", text)}};
  const std::string_view all = text;
  const auto equals = all.find('=');
  const auto first = all.find(',', equals == std::string_view::npos ? 0 : equals);
  const auto second = first == std::string_view::npos ? first : all.find(',', first + 1);
  if (equals == std::string_view::npos || second == std::string_view::npos) return wrong;
  Result<LineTemplate> layout = LineTemplate::read(all.substr(second + 1));
  if (!layout.ok()) return layout.problems();
  const std::string name(all.substr(0, equals));
  GaugePort port{ascii_lower(name), name, std::string(all.substr(equals + 1, first - equals - 1)), 0, 8, Parity::none, 1, std::move(layout).value()};
  if (!is_port_name(name) || !port.path.starts_with('/') || !read_speed(all.substr(first + 1, second - first - 1), port)) return wrong;
  return port;
}

}  // namespace

Result<std::vector<GaugePort>> read_gauge_ports(const std::vector<std::string>& texts) {
  std::vector<GaugePort> out;
  Problems problems;
  for (const std::string& each : texts) {
    auto port = take(read_gauge_port(each), problems);
    if (!port) continue;
    const bool twice = std::any_of(out.begin(), out.end(), [&](const GaugePort& other) { return other.id == port->id || other.path == port->path; });
    if (twice) problems.push_back(Problem{"server.gauge_twice", {}, {verbatim("text", each)}});
    out.push_back(*std::move(port));
  }
  if (!problems.empty()) return problems;
  return out;
}

}  // namespace fettle
