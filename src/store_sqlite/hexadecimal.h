#pragma once

#include <string>
#include <string_view>

namespace fettle::sqlite {

/// 64 small hexadecimal digits as 32 bytes; empty if the text is anything else.
[[nodiscard]] std::string hash_bytes(std::string_view digits);
[[nodiscard]] std::string hash_digits(std::string_view bytes);

}  // namespace fettle::sqlite
