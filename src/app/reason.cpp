#include "app/reason.h"

#include <algorithm>

#include "base/document.h"

namespace fettle {

Problems problems_of_reason(const std::string& why) {
  const bool blank = std::all_of(why.begin(), why.end(), [](char c) { return c == ' '; });
  const bool controls = std::any_of(why.begin(), why.end(), [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7F; });
  if (!blank && !controls && why.size() <= kLongestReason && is_utf8(why)) return {};
  return {Problem{"record.no_reason", {}, {count("most", static_cast<std::int64_t>(kLongestReason))}}};
}

}  // namespace fettle
