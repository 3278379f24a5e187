#pragma once

#include <cstdint>
#include <functional>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/clock.h"
#include "store/store.h"

namespace fettle {

/// Who may come in from another machine: codes that pair a device, and the keys that were given for them. Many threads may call it; what
/// writes to the store may throw StoreError.
class Devices {
 public:
  Devices(Store& store, Clock& wall, std::function<std::int64_t()> milliseconds);

  /// 128 bits in hexadecimal digits; good once, for kPairingMinutes.
  [[nodiscard]] std::string new_code();
  static constexpr std::int64_t kPairingMinutes = 10;

  struct Paired {
    StoredDevice device;
    std::string key;  ///< told this once, and kept nowhere
  };
  /// Nothing: the code is wrong, used up or too old.
  [[nodiscard]] std::optional<Paired> pair(std::string_view code, const std::string& name);

  /// Id of the device that has this key and is not revoked. Does not touch the store.
  [[nodiscard]] std::optional<std::string> device_of_key(std::string_view key);
  [[nodiscard]] std::optional<StoredDevice> device(const std::string& id);
  [[nodiscard]] std::vector<StoredDevice> all();
  /// False: there is no such device.
  [[nodiscard]] bool revoke(const std::string& id);
  /// Noted at most every few minutes, because each note is a write; not at all where the store refuses it.
  void seen(const std::string& id);

 private:
  struct Code {
    std::string code;
    std::int64_t until;
  };
  struct Noted {
    std::string id;
    std::int64_t at;
  };
  Store& store_;
  Clock& wall_;
  std::function<std::int64_t()> milliseconds_;
  std::mutex mutex_;
  std::vector<StoredDevice> devices_;
  std::vector<Code> codes_;
  std::vector<Noted> noted_;
};

}  // namespace fettle
