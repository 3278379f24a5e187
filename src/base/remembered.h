#pragma once

#include <algorithm>
#include <cstdint>
#include <memory>
#include <utility>
#include <vector>

namespace fettle {

/// What pure functions gave for earlier inputs: the whole input is kept and compared, so nothing stale can come back. Holds what was asked
/// for in this round or the one before. Input needs ==. Not to be shared between threads.
template <class Input, class Result>
class Remembered {
 public:
  /// What was made of an equal input before, else what `make(input)` gives now.
  template <class Make>
  std::shared_ptr<const Result> of(Input input, const Make& make) {
    const auto found = std::find_if(entries_.begin(), entries_.end(), [&](const Entry& each) { return each.input == input; });
    if (found != entries_.end()) {
      found->round = round_;
      return found->result;
    }
    auto result = std::make_shared<const Result>(make(std::as_const(input)));
    entries_.push_back({std::move(input), result, round_});
    ++made_;
    return result;
  }

  /// Forgets what the round that ends did not ask for.
  void next_round() {
    std::erase_if(entries_, [&](const Entry& each) { return each.round < round_; });
    ++round_;
  }

  /// How often something had to be made.
  [[nodiscard]] std::size_t made() const { return made_; }

 private:
  struct Entry {
    Input input;
    std::shared_ptr<const Result> result;
    std::uint64_t round;
  };
  std::vector<Entry> entries_;
  std::uint64_t round_ = 0;
  std::size_t made_ = 0;
};

}  // namespace fettle
