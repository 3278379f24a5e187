#pragma once

#include <string>

namespace fettle {

/// "a, b, c" of texts in any container.
template <class Texts>
[[nodiscard]] std::string joined(const Texts& texts, const char* between = ", ") {
  std::string out;
  for (const auto& each : texts) {
    if (!out.empty()) out += between;
    out += each;
  }
  return out;
}

/// The same of the ids of things.
template <class Things>
[[nodiscard]] std::string joined_ids(const Things& things) {
  std::string out;
  for (const auto& each : things) {
    if (!out.empty()) out += ", ";
    out += each.id;
  }
  return out;
}

}  // namespace fettle
