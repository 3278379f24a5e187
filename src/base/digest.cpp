#include "base/digest.h"

#include <sodium.h>

#include <array>
#include <cstdint>

#include "base/assertion.h"

namespace fettle {
namespace {

constexpr std::size_t kLongBytes = 32;

/// libsodium takes bytes as unsigned char; what lies there is the same.
const unsigned char* bytes_of(std::string_view text) {
  return static_cast<const unsigned char*>(static_cast<const void*>(text.data()));
}

std::string in_hexadecimal(const std::array<unsigned char, kLongBytes>& bytes, std::size_t size) {
  static constexpr std::string_view kHex = "0123456789abcdef";
  std::string text;
  text.reserve(2 * size);
  for (std::size_t i = 0; i < size; ++i) {
    text += kHex[bytes.at(i) >> 4U];
    text += kHex[bytes.at(i) & 15U];
  }
  return text;
}

std::string digest_of(const std::vector<std::string_view>& fields, std::size_t bytes) {
  FETTLE_ASSERT(sodium_init() >= 0, "libsodium could not start");
  crypto_generichash_state state;
  crypto_generichash_init(&state, nullptr, 0, bytes);
  for (std::string_view field : fields) {
    std::array<unsigned char, 8> length{};
    std::uint64_t size = field.size();
    for (auto& byte : length) {
      byte = static_cast<unsigned char>(size & 0xFFU);
      size >>= 8U;
    }
    crypto_generichash_update(&state, length.data(), length.size());
    crypto_generichash_update(&state, bytes_of(field), field.size());
  }
  std::array<unsigned char, kLongBytes> out{};
  crypto_generichash_final(&state, out.data(), bytes);
  return in_hexadecimal(out, bytes);
}

}  // namespace

std::string digest(const std::vector<std::string_view>& fields) { return digest_of(fields, 16); }

std::string long_digest(const std::vector<std::string_view>& fields) { return digest_of(fields, kLongBytes); }

std::string file_digest(std::string_view bytes) {
  FETTLE_ASSERT(sodium_init() >= 0, "libsodium could not start");
  std::array<unsigned char, kLongBytes> out{};
  crypto_generichash(out.data(), out.size(), bytes_of(bytes), bytes.size(), nullptr, 0);
  return in_hexadecimal(out, out.size());
}

}  // namespace fettle
