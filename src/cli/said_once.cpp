#include "cli/said_once.h"

#include <algorithm>

namespace fettle {
namespace {

template <class T, class List>
std::vector<OfLimits<T>> gathered(const std::vector<Verdict>& verdicts, const std::string& part, List list) {
  std::vector<OfLimits<T>> out;
  for (const Verdict& verdict : verdicts) {
    if (verdict.part != part) continue;
    for (const T& each : list(verdict)) {
      const auto found = std::find_if(out.begin(), out.end(), [&](const OfLimits<T>& known) { return known.said == each; });
      if (found == out.end()) {
        out.push_back({each, {verdict.limit}});
      } else if (found->limits.back() != verdict.limit) {
        found->limits.push_back(verdict.limit);
      }
    }
  }
  return out;
}

}  // namespace

std::vector<OfLimits<Problem>> reasons_of(const std::vector<Verdict>& verdicts, const std::string& part) {
  return gathered<Problem>(verdicts, part, [](const Verdict& verdict) -> const Problems& { return verdict.reasons; });
}

std::vector<OfLimits<Message>> remarks_of(const std::vector<Verdict>& verdicts, const std::string& part) {
  return gathered<Message>(verdicts, part, [](const Verdict& verdict) -> const std::vector<Message>& { return verdict.remarks; });
}

}  // namespace fettle
