#pragma once

#include <string>
#include <vector>

#include "verdict/verdict.h"

namespace fettle {

/// One reason or remark with the limits that it concerns.
template <class T>
struct OfLimits {
  T said;
  std::vector<std::string> limits;
};

/// The reasons, or the remarks, of the verdicts on one part, each once, in the order in which they come first.
[[nodiscard]] std::vector<OfLimits<Problem>> reasons_of(const std::vector<Verdict>& verdicts, const std::string& part);
[[nodiscard]] std::vector<OfLimits<Message>> remarks_of(const std::vector<Verdict>& verdicts, const std::string& part);

}  // namespace fettle
