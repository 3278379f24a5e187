#include "server/live_hub.h"

#include <algorithm>

namespace fettle {

void LiveStream::put(const std::string& text) {
  {
    const std::lock_guard hold(mutex_);
    if (ended_) return;
    if (waiting_.size() + text.size() > most_bytes_) {
      ended_ = true;
    } else {
      waiting_ += text;
    }
  }
  wake_();
}

void LiveStream::end() {
  {
    const std::lock_guard hold(mutex_);
    ended_ = true;
  }
  wake_();
}

void LiveStream::cut() {
  {
    const std::lock_guard hold(mutex_);
    ended_ = true;
    cut_ = true;
    waiting_.clear();
  }
  wake_();
}

bool LiveStream::is_cut() {
  const std::lock_guard hold(mutex_);
  return cut_;
}

LiveStream::Taken LiveStream::take() {
  const std::lock_guard hold(mutex_);
  Taken out{std::move(waiting_), ended_};
  waiting_.clear();
  return out;
}

std::shared_ptr<LiveStream> LiveHub::open(Listener listener, std::function<void()> wake) {
  const std::lock_guard hold(mutex_);
  if (streams_.size() >= most_streams_) return nullptr;
  const bool revoked = listener.key && revoked_.contains(*listener.key);
  const auto stream = *streams_.insert(std::make_shared<LiveStream>(std::move(listener), most_bytes_, std::move(wake))).first;
  if (revoked) stream->cut();
  return stream;
}

void LiveHub::close(const std::shared_ptr<LiveStream>& stream) {
  const std::lock_guard hold(mutex_);
  streams_.erase(stream);
}

void LiveHub::tell(const std::string& job, const std::optional<std::string>& device, const std::string& event, const std::string& json_line) {
  const std::string text = "event: " + event + "\ndata: " + json_line + "\n\n";
  for (const auto& each : streams()) {
    if ((job.empty() || each->listener().job == job) && (!device || each->listener().device == *device)) each->put(text);
  }
}

bool LiveHub::listens(const std::string& device) {
  const std::lock_guard hold(mutex_);
  return std::any_of(streams_.begin(), streams_.end(), [&](const auto& each) { return each->listener().device == device; });
}

void LiveHub::end_of_key(const std::string& key) {
  {
    const std::lock_guard hold(mutex_);
    revoked_.insert(key);
  }
  for (const auto& each : streams()) {
    if (each->listener().key == key) each->cut();
  }
}

void LiveHub::end_all() {
  for (const auto& each : streams()) each->end();
}

std::set<std::shared_ptr<LiveStream>> LiveHub::streams() {
  const std::lock_guard hold(mutex_);
  return streams_;
}

}  // namespace fettle
