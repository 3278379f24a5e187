#pragma once

#include <string>

namespace fettle {

/// For tests of what was written: the value that a pointer ("/rows/0/part") leads to. A text as it is, all else as JSON; what is not there
/// is "(nothing)".
[[nodiscard]] std::string json_at(const std::string& document, const std::string& pointer);

/// How many items the list or object has there; 0 for anything else.
[[nodiscard]] std::size_t json_size(const std::string& document, const std::string& pointer);

}  // namespace fettle
