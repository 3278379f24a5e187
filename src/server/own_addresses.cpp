#include "server/own_addresses.h"

#include <arpa/inet.h>
#include <ifaddrs.h>
#include <net/if.h>
#include <netinet/in.h>
#include <unistd.h>

#include <algorithm>
#include <array>

namespace fettle {
namespace {

std::string text_of_address(int family, const void* bytes) {
  std::array<char, INET6_ADDRSTRLEN> text{};
  return ::inet_ntop(family, bytes, text.data(), static_cast<socklen_t>(text.size())) == nullptr ? std::string() : std::string(text.data());
}

void add_address(const ifaddrs& each, std::vector<std::string>& four, std::vector<std::string>& six) {
  if (each.ifa_addr == nullptr || (each.ifa_flags & IFF_UP) == 0 || (each.ifa_flags & IFF_LOOPBACK) != 0) return;
  const void* raw = each.ifa_addr;
  if (each.ifa_addr->sa_family == AF_INET) {
    four.push_back(text_of_address(AF_INET, &static_cast<const sockaddr_in*>(raw)->sin_addr));
  } else if (each.ifa_addr->sa_family == AF_INET6) {
    const in6_addr& address = static_cast<const sockaddr_in6*>(raw)->sin6_addr;
    // One that holds on a single wire cannot stand in an address bar.
    if (!IN6_IS_ADDR_LINKLOCAL(&address)) six.push_back(text_of_address(AF_INET6, &address));
  }
}

bool is_host_name(const std::string& text) {
  return !text.empty() && std::all_of(text.begin(), text.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-' || c == '.';
  });
}

}  // namespace

std::vector<std::string> own_addresses() {
  std::vector<std::string> four;
  std::vector<std::string> six;
  ifaddrs* all = nullptr;
  if (::getifaddrs(&all) != 0) return {};
  for (const ifaddrs* each = all; each != nullptr; each = each->ifa_next) add_address(*each, four, six);
  ::freeifaddrs(all);
  four.insert(four.end(), six.begin(), six.end());
  return four;
}

bool is_address(const std::string& text) {
  in6_addr room{};
  return ::inet_pton(AF_INET, text.c_str(), &room) == 1 || ::inet_pton(AF_INET6, text.c_str(), &room) == 1;
}

std::vector<std::string> own_names() {
  std::array<char, 256> buffer{};
  if (::gethostname(buffer.data(), buffer.size() - 1) != 0) return {};
  std::string name(buffer.data());
  std::transform(name.begin(), name.end(), name.begin(), [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  if (!is_host_name(name) || name == "localhost") return {};
  if (name.find('.') != std::string::npos) return {name};
  return {name, name + ".local"};
}

}  // namespace fettle
