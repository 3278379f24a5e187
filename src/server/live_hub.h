#pragma once

#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <set>
#include <string>

#include "server/http.h"

namespace fettle {

struct Listener {
  std::string job;                 ///< empty: events of no job
  std::string device;              ///< as the page calls itself
  std::optional<std::string> key;  ///< the paired device
};

/// What waits for one listener. Anybody may put something in; the connection takes it out.
class LiveStream {
 public:
  /// `wake` is called, from any thread, when there is something to take or the stream is to end.
  LiveStream(Listener listener, std::size_t most_bytes, std::function<void()> wake)
      : most_bytes_(most_bytes), wake_(std::move(wake)), listener_(std::move(listener)) {}

  [[nodiscard]] const Listener& listener() const { return listener_; }

  void put(const std::string& text);
  void end();
  /// Ends at once: nothing that waits is for this listener any more.
  void cut();
  [[nodiscard]] bool is_cut();
  struct Taken {
    std::string text;
    bool ended;  ///< told to end, or more waited than may: the listener was too slow
  };
  [[nodiscard]] Taken take();

 private:
  const std::size_t most_bytes_;
  const std::function<void()> wake_;
  const Listener listener_;
  std::mutex mutex_;
  std::string waiting_;
  bool ended_ = false;
  bool cut_ = false;
};

/// All who listen.
class LiveHub final : public Live {
 public:
  LiveHub(std::size_t most_streams, std::size_t most_bytes) : most_streams_(most_streams), most_bytes_(most_bytes) {}

  /// Null where there are as many as may be. Of a key that was revoked since its request came in it is cut already.
  [[nodiscard]] std::shared_ptr<LiveStream> open(Listener listener, std::function<void()> wake);
  void close(const std::shared_ptr<LiveStream>& stream);
  void tell(const std::string& job, const std::optional<std::string>& device, const std::string& event, const std::string& json_line) override;
  [[nodiscard]] bool listens(const std::string& device);
  /// Of a device that was revoked, for ever: its streams are cut, and one that is just being opened as well.
  void end_of_key(const std::string& key);
  void end_all();

 private:
  [[nodiscard]] std::set<std::shared_ptr<LiveStream>> streams();

  const std::size_t most_streams_;
  const std::size_t most_bytes_;
  std::mutex mutex_;
  std::set<std::shared_ptr<LiveStream>> streams_;
  std::set<std::string> revoked_;  ///< keys that were taken back while this program ran
};

}  // namespace fettle
