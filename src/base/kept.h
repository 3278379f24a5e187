#pragma once

#include <string>

namespace fettle {

/// A thing with the id of the event that made it.
template <class T>
struct Kept {
  std::string event;
  T value;
  bool operator==(const Kept&) const = default;
};

}  // namespace fettle
