#pragma once

#include <string>
#include <vector>

#include "verdict/judge.h"

namespace fettle {

/// One limit on one part, judged under its own definition and under every other that books use for the same word.
struct SideBySide {
  std::string part;
  std::string limit;
  struct Under {
    std::string definition;
    Verdict verdict;
  };
  std::vector<Under> under;  ///< the limit's own definition first
  bool decides;              ///< whether the choice changes what is read against the limit, or the verdict
};

/// For every limit with relatives: definitions of the same name and dimension (oor-1 to oor-6, tap-1 to tap-10) that what was read can
/// give. The bound stays the book's. `input` is that of the judgement.
[[nodiscard]] std::vector<SideBySide> definitions_side_by_side(const JudgeInput& input);

}  // namespace fettle
