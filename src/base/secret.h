#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace fettle {

/// `bytes` random bytes of the operating system in hexadecimal digits: what nobody can guess (a key, a token, a code). Never what a result
/// depends on.
[[nodiscard]] std::string random_secret(std::size_t bytes);

/// Takes as long for every pair of texts of these lengths, so that the time of a refusal does not tell how many letters were right.
[[nodiscard]] bool same_secret(std::string_view left, std::string_view right);

}  // namespace fettle
