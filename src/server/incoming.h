#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace fettle {

/// The head of a request as it was sent, before any check of ours.
struct Incoming {
  int version;  ///< 10 or 11
  std::string method;
  std::string target;
  std::vector<std::pair<std::string, std::string>> fields;
};

/// Who sends, as far as the connection tells.
struct Caller {
  std::string address;  ///< without the port
  bool loopback;
  bool encrypted;
};

/// Names of fields are the same in small and large letters.
[[nodiscard]] bool same_field_name(std::string_view left, std::string_view right);
[[nodiscard]] std::size_t count_of_field(const Incoming& incoming, std::string_view name);
/// Of the first one with this name; empty if there is none.
[[nodiscard]] std::string_view field_of(const Incoming& incoming, std::string_view name);
/// Of a cookie, the first with this name; empty if there is none.
[[nodiscard]] std::string_view cookie_of(const Incoming& incoming, std::string_view name);

}  // namespace fettle
