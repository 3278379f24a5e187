#include "store_sqlite/hexadecimal.h"

namespace fettle::sqlite {
namespace {

constexpr std::string_view kDigits = "0123456789abcdef";
constexpr std::size_t kHashDigits = 64;

/// 16 for what is no digit.
unsigned value_of(char digit) {
  if (digit >= '0' && digit <= '9') return static_cast<unsigned>(digit - '0');
  if (digit >= 'a' && digit <= 'f') return static_cast<unsigned>(digit - 'a') + 10U;
  return 16U;
}

}  // namespace

std::string hash_bytes(std::string_view digits) {
  if (digits.size() != kHashDigits) return {};
  std::string out;
  for (std::size_t i = 0; i < digits.size(); i += 2) {
    const unsigned high = value_of(digits[i]);
    const unsigned low = value_of(digits[i + 1]);
    if (high > 15U || low > 15U) return {};
    out += static_cast<char>(high << 4U | low);
  }
  return out;
}

std::string hash_digits(std::string_view bytes) {
  std::string out;
  out.reserve(2 * bytes.size());
  for (const char byte : bytes) {
    out += kDigits[static_cast<unsigned char>(byte) >> 4U];
    out += kDigits[static_cast<unsigned char>(byte) & 15U];
  }
  return out;
}

}  // namespace fettle::sqlite
