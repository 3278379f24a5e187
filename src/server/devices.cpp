#include "server/devices.h"

#include <algorithm>

#include "base/digest.h"
#include "base/secret.h"

namespace fettle {
namespace {

constexpr std::int64_t kMillisecondsAMinute = 60'000;
constexpr std::int64_t kMillisecondsBetweenNotes = 10 * kMillisecondsAMinute;
constexpr std::size_t kKeyBytes = 32;
constexpr std::size_t kCodeBytes = 16;
constexpr std::size_t kMostCodes = 16;

/// A key has 256 random bits: one hash is enough to keep it from whoever reads the record.
std::string hash_of_key(std::string_view key) { return long_digest({"fettle device key", key}); }

}  // namespace

Devices::Devices(Store& store, Clock& wall, std::function<std::int64_t()> milliseconds)
    : store_(store), wall_(wall), milliseconds_(std::move(milliseconds)), devices_(store.devices()) {}

std::string Devices::new_code() {
  const std::lock_guard hold(mutex_);
  const std::int64_t now = milliseconds_();
  std::erase_if(codes_, [&](const Code& each) { return each.until <= now; });
  if (codes_.size() >= kMostCodes) codes_.erase(codes_.begin());
  codes_.push_back({random_secret(kCodeBytes), now + kPairingMinutes * kMillisecondsAMinute});
  return codes_.back().code;
}

std::optional<Devices::Paired> Devices::pair(std::string_view code, const std::string& name) {
  const std::lock_guard hold(mutex_);
  const std::int64_t now = milliseconds_();
  auto found = codes_.end();
  for (auto each = codes_.begin(); each != codes_.end(); ++each) {
    if (same_secret(each->code, code) && each->until > now) found = each;
  }
  if (found == codes_.end()) return std::nullopt;
  Paired out{{"p-" + random_secret(8), name, {}, wall_.now(), {}, false}, random_secret(kKeyBytes)};
  out.device.key_hash = hash_of_key(out.key);
  store_.keep_device(out.device);
  codes_.erase(found);  // only now: a full disk does not use the code up
  devices_.push_back(out.device);
  return out;
}

std::optional<std::string> Devices::device_of_key(std::string_view key) {
  const std::string hash = hash_of_key(key);
  const std::lock_guard hold(mutex_);
  std::optional<std::string> out;
  for (const StoredDevice& each : devices_) {
    if (same_secret(each.key_hash, hash) && !each.revoked) out = each.id;
  }
  return out;
}

std::optional<StoredDevice> Devices::device(const std::string& id) {
  const std::lock_guard hold(mutex_);
  const auto found = std::find_if(devices_.begin(), devices_.end(), [&](const StoredDevice& each) { return each.id == id; });
  return found == devices_.end() ? std::nullopt : std::optional(*found);
}

std::vector<StoredDevice> Devices::all() {
  const std::lock_guard hold(mutex_);
  return devices_;
}

bool Devices::revoke(const std::string& id) {
  const std::lock_guard hold(mutex_);
  const auto found = std::find_if(devices_.begin(), devices_.end(), [&](const StoredDevice& each) { return each.id == id; });
  if (found == devices_.end() || !store_.revoke_device(id)) return false;
  found->revoked = true;
  return true;
}

void Devices::seen(const std::string& id) {
  const std::lock_guard hold(mutex_);
  const std::int64_t now = milliseconds_();
  const auto found = std::find_if(devices_.begin(), devices_.end(), [&](const StoredDevice& each) { return each.id == id; });
  if (found == devices_.end()) return;
  const auto noted = std::find_if(noted_.begin(), noted_.end(), [&](const Noted& each) { return each.id == id; });
  if (noted != noted_.end() && now - noted->at < kMillisecondsBetweenNotes) return;
  try {
    const std::string at = wall_.now();
    store_.device_seen(id, at);
    found->last_seen = at;
  } catch (const StoreError&) {
    // A full disk must not keep out whoever wants to read what is there; the next note tries again.
    return;
  }
  if (noted == noted_.end()) {
    noted_.push_back({id, now});
  } else {
    noted->at = now;
  }
}

}  // namespace fettle
