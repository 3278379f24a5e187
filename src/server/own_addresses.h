#pragma once

#include <string>
#include <vector>

namespace fettle {

/// Addresses of this machine by which another one can reach it; those of version 4 first.
[[nodiscard]] std::vector<std::string> own_addresses();

/// Whether this is an address in figures, of version 4 or 6.
[[nodiscard]] bool is_address(const std::string& text);

/// By which this machine calls itself, with and without ".local"; empty where that is no name.
[[nodiscard]] std::vector<std::string> own_names();

}  // namespace fettle
