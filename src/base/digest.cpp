#include "base/digest.h"

#include <sodium.h>

#include <array>
#include <cstdint>

#include "base/assertion.h"

namespace fettle {
namespace {

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
    const std::vector<unsigned char> text(field.begin(), field.end());
    crypto_generichash_update(&state, text.data(), text.size());
  }
  std::vector<unsigned char> out(bytes);
  crypto_generichash_final(&state, out.data(), out.size());
  static constexpr std::string_view kHex = "0123456789abcdef";
  std::string text;
  for (unsigned char byte : out) {
    text += kHex[byte >> 4U];
    text += kHex[byte & 15U];
  }
  return text;
}

}  // namespace

std::string digest(const std::vector<std::string_view>& fields) { return digest_of(fields, 16); }

std::string long_digest(const std::vector<std::string_view>& fields) { return digest_of(fields, 32); }

}  // namespace fettle
