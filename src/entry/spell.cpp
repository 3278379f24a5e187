#include "entry/spell.h"

#include <algorithm>

#include "entry/characters.h"

namespace fettle {
namespace {

constexpr std::size_t kLongestWord = 64;

std::size_t distance(const std::string& a, const std::string& b) {
  std::vector<std::vector<std::size_t>> cost(a.size() + 1, std::vector<std::size_t>(b.size() + 1));
  for (std::size_t i = 0; i <= a.size(); ++i) cost[i][0] = i;
  for (std::size_t k = 0; k <= b.size(); ++k) cost[0][k] = k;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    for (std::size_t k = 1; k <= b.size(); ++k) {
      const std::size_t replaced = cost[i - 1][k - 1] + (a[i - 1] == b[k - 1] ? 0U : 1U);
      cost[i][k] = std::min({cost[i - 1][k] + 1, cost[i][k - 1] + 1, replaced});
      const bool exchanged = i > 1 && k > 1 && a[i - 1] == b[k - 2] && a[i - 2] == b[k - 1];
      if (exchanged) cost[i][k] = std::min(cost[i][k], cost[i - 2][k - 2] + 1);
    }
  }
  return cost[a.size()][b.size()];
}

/// In a word of two letters one wrong letter is half of it: the first must be right. A single letter tells nothing.
bool may_be_meant(const std::string& typed, const std::string& known) {
  if (typed.size() > 2) return true;
  return typed.size() == 2 && known.size() == 2 && typed.front() == known.front();
}

}  // namespace

std::optional<std::string> nearest_word(std::string_view typed, const std::vector<std::string>& known) {
  if (typed.empty() || typed.size() > kLongestWord) return std::nullopt;
  const std::string wanted = ascii_lower(typed);
  std::optional<std::string> best;
  std::size_t least = std::max<std::size_t>(1, wanted.size() / 3) + 1;
  for (const std::string& word : known) {
    const std::string lower = ascii_lower(word);
    if (word.size() > kLongestWord || (lower != wanted && !may_be_meant(wanted, lower))) continue;
    const std::size_t each = distance(wanted, lower);
    const auto off = [&](const std::string& other) { return std::max(other.size(), typed.size()) - std::min(other.size(), typed.size()); };
    const bool fits_better = each == least && best && off(word) < off(*best);
    if (each < least || fits_better) {
      least = each;
      best = word;
    }
  }
  return best;
}

}  // namespace fettle
