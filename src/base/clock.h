#pragma once

#include <string>

namespace fettle {

/// What a clock on the wall says. Noted where something is accepted; decides nothing, and may be wrong or go backwards.
class Clock {
 public:
  virtual ~Clock() = default;
  /// Now, in UTC with microseconds, as 2031-05-04T08:12:00.000000Z.
  [[nodiscard]] virtual std::string now() = 0;
};

}  // namespace fettle
