#include "wire/act_head.h"

#include "base/day.h"
#include "base/document.h"

namespace fettle {
namespace {

constexpr std::size_t kLongestMoment = 40;

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
