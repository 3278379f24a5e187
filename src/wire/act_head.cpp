#include "wire/act_head.h"

#include <algorithm>

#include "base/day.h"

namespace fettle {
namespace {

constexpr std::size_t kLongestMoment = 40;

/// Of ASCII, or of those that UTF-8 writes as C2 80 to C2 9F.
bool has_control_character(const std::string& text) {
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto byte = static_cast<unsigned char>(text[i]);
    const auto next = static_cast<unsigned char>(i + 1 < text.size() ? text[i + 1] : '\0');
    if (byte < 0x20 || byte == 0x7f || (byte == 0xc2 && next >= 0x80 && next < 0xa0)) return true;
  }
  return false;
}

bool is_name(const std::string& text) {
  const bool blank = text.find_first_not_of(' ') == std::string::npos;
  return !blank && text.size() <= static_cast<std::size_t>(kLongestName) && !has_control_character(text);
}

}  // namespace

Problems problems_of_name(const char* key, const std::string& name) {
  if (is_name(name)) return {};
  return {Problem{"wire.not_a_name", {}, {verbatim("key", key), count("most", kLongestName)}}};
}

Problems problems_of_head(const ActHead& head) {
  Problems out = problems_of_name("device", head.device);
  const Problems of_who = problems_of_name("who", head.who);
  out.insert(out.end(), of_who.begin(), of_who.end());
  if (head.made_at.size() > kLongestMoment || !moment_seconds(head.made_at)) out.push_back({"wire.not_a_moment", {}, {verbatim("key", "made_at")}});
  return out;
}

}  // namespace fettle
