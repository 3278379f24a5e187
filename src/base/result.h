#pragma once

#include <utility>
#include <variant>

#include "base/assertion.h"
#include "base/problem.h"

namespace fettle {

/// A value, or every problem that stood in its way. Never both, never neither.
template <class T>
class [[nodiscard]] Result {
 public:
  Result(T value) : state_(std::in_place_index<0>, std::move(value)) {}  // NOLINT(google-explicit-constructor)
  Result(Problem problem) : state_(std::in_place_index<1>, Problems{std::move(problem)}) {}  // NOLINT
  Result(Problems problems) : state_(std::in_place_index<1>, std::move(problems)) {          // NOLINT
    FETTLE_ASSERT(!std::get<1>(state_).empty(), "a refusal needs at least one problem");
  }

  [[nodiscard]] bool ok() const { return state_.index() == 0; }
  [[nodiscard]] const T& value() const& {
    FETTLE_ASSERT(ok(), "value() of a refusal: " + std::get<1>(state_).front().code);
    return std::get<0>(state_);
  }
  [[nodiscard]] T&& value() && {
    FETTLE_ASSERT(ok(), "value() of a refusal: " + std::get<1>(state_).front().code);
    return std::get<0>(std::move(state_));
  }
  [[nodiscard]] const Problems& problems() const {
    FETTLE_ASSERT(!ok(), "problems() of a value");
    return std::get<1>(state_);
  }

 private:
  std::variant<T, Problems> state_;
};

/// Moves the value out, or adds the problems to `problems` and gives nothing.
template <class T>
[[nodiscard]] std::optional<T> take(Result<T> result, Problems& problems) {
  if (result.ok()) return std::move(result).value();
  problems.insert(problems.end(), result.problems().begin(), result.problems().end());
  return std::nullopt;
}

}  // namespace fettle
