#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace fettle {

/// 128-bit BLAKE2b digest (libsodium's generic hash) in 32 hexadecimal digits. Each field is preceded by its length, so that
/// ("ab","c") and ("a","bc") differ. Errors: none.
[[nodiscard]] std::string digest(const std::vector<std::string_view>& fields);

/// The same with 256 bits in 64 digits: where somebody might try to make two texts with one hash.
[[nodiscard]] std::string long_digest(const std::vector<std::string_view>& fields);

/// 256-bit BLAKE2b of the bytes alone, 64 digits: what other programs give for a file with these bytes (`b2sum -l 256`).
[[nodiscard]] std::string file_digest(std::string_view bytes);

}  // namespace fettle
