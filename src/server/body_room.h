#pragma once

#include <atomic>
#include <cstddef>
#include <optional>
#include <utility>

namespace fettle {

/// How many bytes of bodies may be in memory at once, of all connections together. A body has its place before its first byte is read, so
/// that what was let in comes to its end. Large ones never take all: what is typed gets in beside any number of photos.
class BodyRoom {
 public:
  /// `of_large`: bytes that bodies larger than `large` may take, all together.
  BodyRoom(std::size_t total, std::size_t of_large, std::size_t large) : total_(total), of_large_(of_large), large_(large) {}

  /// The place of one body, given back when it goes. Must not outlive the room.
  class Place {
   public:
    Place(BodyRoom& room, std::size_t bytes) : room_(&room), bytes_(bytes) {}
    Place(Place&& other) noexcept : room_(std::exchange(other.room_, nullptr)), bytes_(other.bytes_) {}
    Place(const Place&) = delete;
    Place& operator=(const Place&) = delete;
    Place& operator=(Place&&) = delete;
    ~Place() {
      if (room_ != nullptr) room_->taken_ -= bytes_;
    }

   private:
    BodyRoom* room_;
    std::size_t bytes_;
  };

  /// Nothing: there is no room for so many now.
  [[nodiscard]] std::optional<Place> take(std::size_t bytes) {
    const std::size_t most = bytes > large_ ? of_large_ : total_;
    std::size_t taken = taken_;
    do {
      if (bytes > most || taken > most - bytes) return std::nullopt;
    } while (!taken_.compare_exchange_weak(taken, taken + bytes));
    return std::optional<Place>(std::in_place, *this, bytes);
  }

  [[nodiscard]] std::size_t taken() const { return taken_; }

 private:
  const std::size_t total_;
  const std::size_t of_large_;
  const std::size_t large_;
  std::atomic<std::size_t> taken_ = 0;  ///< a body may go on any thread
};

}  // namespace fettle
