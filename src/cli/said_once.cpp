#include "cli/said_once.h"

#include <algorithm>

namespace fettle {
namespace {

bool is_shift(const Message& message) { return message.key == "shape.shift" || message.key == "shape.shift_none"; }

bool doubts_the_size(const Message& message) {
  return message.key == "shape.not_standard" || message.key == "shape.perhaps_not_standard";
}

bool has_argument(const Message& message, const std::string& name) {
  return std::any_of(message.arguments.begin(), message.arguments.end(), [&](const Argument& each) { return each.name == name; });
}

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

std::vector<Message> said_once(std::vector<Message> said) {
  const auto shift = std::find_if(said.begin(), said.end(), is_shift);
  const auto size = std::find_if(said.begin(), said.end(), doubts_the_size);
  if (shift == said.end() || size == said.end()) return said;
  for (const Argument& each : shift->arguments) {
    if (!has_argument(*size, each.name)) size->arguments.push_back(each);
  }
  said.erase(shift);
  return said;
}

std::vector<OfLimits<Problem>> reasons_of(const std::vector<Verdict>& verdicts, const std::string& part) {
  return gathered<Problem>(verdicts, part, [](const Verdict& verdict) -> const Problems& { return verdict.reasons; });
}

std::vector<OfLimits<Message>> remarks_of(const std::vector<Verdict>& verdicts, const std::string& part) {
  return gathered<Message>(verdicts, part, [](const Verdict& verdict) -> const std::vector<Message>& { return verdict.remarks; });
}

}  // namespace fettle
