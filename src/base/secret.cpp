#include "base/secret.h"

#include <sodium.h>

#include <vector>

#include "base/assertion.h"

namespace fettle {

std::string random_secret(std::size_t bytes) {
  if (bytes == 0) return {};
  FETTLE_ASSERT(sodium_init() >= 0, "libsodium could not start");
  std::vector<unsigned char> drawn(bytes);
  randombytes_buf(drawn.data(), drawn.size());
  std::string out(2 * bytes + 1, '\0');
  sodium_bin2hex(out.data(), out.size(), drawn.data(), drawn.size());
  out.pop_back();
  return out;
}

bool same_secret(std::string_view left, std::string_view right) {
  return left.size() == right.size() && (left.empty() || sodium_memcmp(left.data(), right.data(), left.size()) == 0);
}

}  // namespace fettle
