#pragma once

#include <string>
#include <vector>

#include "verdict/verdict.h"

namespace fettle {

/// What the shape model says of a group, without what it would say twice: where the parts are doubted to stand at their stated size
/// (shape.not_standard, shape.perhaps_not_standard), that sentence also tells what is laid to the gauge, so it takes over the figures of
/// shape.shift or shape.shift_none, which then goes.
[[nodiscard]] std::vector<Message> said_once(std::vector<Message> said);

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
