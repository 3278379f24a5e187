#include "server/gauge_desk.h"

#include <algorithm>

namespace fettle {
namespace {

ReadByTemplate as_read(const LineReading& reading) { return {reading.text, reading.unit}; }

}  // namespace

GaugeDesk::GaugeDesk(std::vector<GaugePort> ports, Store& store, Clock& wall, LiveHub& live) : store_(store), wall_(wall), live_(live) {
  for (GaugePort& each : ports) ports_.push_back({std::move(each), false, std::nullopt});
}

void GaugeDesk::received(const std::string& port, const std::string& bytes) {
  const std::lock_guard hold(keeping_);
  if (to_keep_.size() >= kMostWaiting) {
    ++not_kept_;
    return;
  }
  to_keep_.push_back({port, bytes, wall_.now()});
  keep_all();
}

void GaugeDesk::keep_all() {
  while (!to_keep_.empty() && keep(to_keep_.front())) to_keep_.pop_front();
}

bool GaugeDesk::keep(const Line& line) {
  StoredGaugeLine kept{0, line.port, line.bytes, line.at};
  try {
    if (store_.gauge_lines().size() >= kMostWaiting) {
      ++not_kept_;
      tell_tray();
      return true;
    }
    kept.number = store_.keep_gauge_line(line.port, line.bytes, line.at);
  } catch (const StoreError&) {
    return false;
  }
  std::optional<NamedDevice> taker;
  {
    const std::lock_guard hold(mutex_);
    for (const Held& each : ports_) {
      if (each.port.id == line.port) taker = each.taken_by;
    }
  }
  if (taker && live_.listens(taker->id)) {
    live_.tell({}, taker->id, "gauge-line", gauge_line_event_json(shown(kept)));
  } else {
    tell_tray();
  }
  return true;
}

void GaugeDesk::try_again() {
  const std::lock_guard hold(keeping_);
  keep_all();
}

void GaugeDesk::is_there(const std::string& port, bool there) {
  {
    const std::lock_guard hold(mutex_);
    const auto found = std::find_if(ports_.begin(), ports_.end(), [&](const Held& each) { return each.port.id == port; });
    if (found == ports_.end() || found->there == there) return;
    found->there = there;
  }
  live_.tell({}, std::nullopt, "port", port_event_json(port, there));
}

bool GaugeDesk::take(const std::string& port, const NamedDevice& device) {
  const std::lock_guard hold(mutex_);
  const auto found = std::find_if(ports_.begin(), ports_.end(), [&](const Held& each) { return each.port.id == port; });
  if (found == ports_.end()) return false;
  found->taken_by = device;
  return true;
}

bool GaugeDesk::leave(const std::string& port, const std::string& device) {
  const std::lock_guard hold(mutex_);
  const auto found = std::find_if(ports_.begin(), ports_.end(), [&](const Held& each) { return each.port.id == port; });
  if (found == ports_.end()) return false;
  if (found->taken_by && found->taken_by->id == device) found->taken_by.reset();
  return true;
}

bool GaugeDesk::done(std::int64_t number) {
  if (!store_.drop_gauge_line(number)) return false;
  tell_tray();
  return true;
}

std::vector<PortLine> GaugeDesk::ports() {
  const std::lock_guard hold(mutex_);
  std::vector<PortLine> out;
  for (const Held& each : ports_) out.push_back({each.port.id, each.port.name, each.there, each.taken_by});
  return out;
}

std::vector<WaitingLine> GaugeDesk::waiting() {
  std::vector<WaitingLine> out;
  for (const StoredGaugeLine& each : store_.gauge_lines()) out.push_back(shown(each));
  return out;
}

WaitingLine GaugeDesk::shown(const StoredGaugeLine& line) const {
  WaitingLine out{line.number, line.port, line.bytes, line.received_at, std::nullopt};
  // Ports are never added or taken away, and a template never changes: no lock is needed to read one.
  for (const Held& each : ports_) {
    if (each.port.id != line.port) continue;
    if (const auto reading = each.port.layout.match(line.bytes)) out.reading = as_read(*reading);
  }
  return out;
}

void GaugeDesk::tell_tray() {
  try {
    live_.tell({}, std::nullopt, "tray", tray_event_json(static_cast<std::int64_t>(store_.gauge_lines().size())));
  } catch (const StoreError&) {
    // What was to be told of is kept; a disk that fails is told of to whoever asks next.
  }
}

}  // namespace fettle
