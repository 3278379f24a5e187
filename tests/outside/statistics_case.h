#pragma once

#include <functional>
#include <map>
#include <string>
#include <vector>

namespace fettle {

/// One published figure with how far ours may be from it, and why so far.
struct PublishedFigure {
  std::string name;
  double value;
  double tolerance;
  bool relative;
  std::string reason;
};

using Numbers = std::map<std::string, double>;

/// One case of a file in tests/outside/statistics/.
struct OutsideCase {
  std::string name;
  Numbers given;
  std::map<std::string, std::vector<double>> lists;  ///< "list x = 1 2 3"
  std::vector<PublishedFigure> expected;
};

/// What the answers to the cases of a file miss, a line each; `expectations` guards against a file that lost its lines. Throws
/// std::runtime_error for a file that is not written as it should be.
[[nodiscard]] std::vector<std::string> differences(const std::string& file, int expectations,
                                                   const std::function<Numbers(const OutsideCase&)>& answer);

}  // namespace fettle
