#pragma once

#include <algorithm>
#include <string_view>

// Inside `wire` only.
namespace fettle::json {

/// 32 hexadecimal digits, small letters.
[[nodiscard]] inline bool is_event_id(std::string_view id) {
  constexpr std::size_t kDigits = 32;
  return id.size() == kDigits &&
         std::all_of(id.begin(), id.end(), [](char c) { return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f'); });
}

}  // namespace fettle::json
