#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "verdict/judge.h"

namespace fettle {

/// A verdict in the few words by which two versions of the program are compared: what would be printed.
struct VerdictLine {
  std::string part;      ///< of the line for the engine as a whole: empty, as is `limit`
  std::string limit;
  std::string word;
  std::string chance;    ///< four decimals; empty where there is none
  std::string measured;  ///< exact, as "numerator/denominator" in the base unit of what it is; empty where there is none
  bool operator==(const VerdictLine&) const = default;
};

/// The engine first, then verdict by verdict.
[[nodiscard]] std::vector<VerdictLine> lines_of(const Judgement& judgement);

/// One array of texts a line: ["bore-1","bore-service","within","0.9981","840548000/1"].
[[nodiscard]] std::string verdict_lines_json(const std::vector<VerdictLine>& lines);

/// Reads that back. Problems: those of a line that is no JSON; wire.wrong_kind.
[[nodiscard]] Result<std::vector<VerdictLine>> read_verdict_lines(std::string_view text, const Place& place);

}  // namespace fettle
