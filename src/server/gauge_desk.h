#pragma once

#include <atomic>
#include <cstdint>
#include <deque>
#include <map>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "base/clock.h"
#include "server/gauge_port.h"
#include "server/live_hub.h"
#include "store/store.h"
#include "wire/border_json.h"

namespace fettle {

/// The gauges on serial ports. A line is kept before anybody is told of it. It goes to the one device that took its port; until somebody
/// has used it or put it aside, it waits in the tray. Many threads may call it; what writes to the store may throw StoreError.
class GaugeDesk {
 public:
  /// So many lines wait at most: a gauge that sends day and night must not fill the disk. Later ones are counted and not kept.
  static constexpr std::size_t kMostWaiting = 5'000;

  GaugeDesk(std::vector<GaugePort> ports, Store& store, Clock& wall, LiveHub& live);

  void received(const std::string& port, const std::string& bytes);
  /// Whether the port is plugged in and open.
  void is_there(const std::string& port, bool there);
  /// False: there is no such port.
  [[nodiscard]] bool take(const std::string& port, const NamedDevice& device);
  [[nodiscard]] bool leave(const std::string& port, const std::string& device);
  /// False: there is no such line.
  [[nodiscard]] bool done(std::int64_t number);
  /// Lines that a full disk refused are offered again.
  void try_again();

  [[nodiscard]] std::vector<PortLine> ports();
  /// The oldest first.
  [[nodiscard]] std::vector<WaitingLine> waiting();
  /// Lines that found no room since the server was started.
  [[nodiscard]] std::int64_t not_kept() const { return not_kept_; }

 private:
  struct Held {
    GaugePort port;
    bool there;
    std::optional<NamedDevice> taken_by;
  };
  struct Line {
    std::string port;
    std::string bytes;
    std::string at;
  };
  [[nodiscard]] WaitingLine shown(const StoredGaugeLine& line) const;
  /// In their order, up to the first that the disk refuses. Needs keeping_.
  void keep_all();
  [[nodiscard]] bool keep(const Line& line);
  void tell_tray();

  Store& store_;
  Clock& wall_;
  LiveHub& live_;
  std::mutex mutex_;
  std::vector<Held> ports_;  ///< as many as at first
  std::mutex keeping_;       ///< of those that are not kept yet; taken before `mutex_`
  std::deque<Line> to_keep_;
  std::atomic<std::int64_t> not_kept_ = 0;
};

}  // namespace fettle
