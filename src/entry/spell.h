#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace fettle {

/// The known word nearest to `typed` by insertions, deletions, replacements and exchanged neighbours (ASCII case ignored), if it is
/// near enough to be meant: at most a third of its letters wrong, in a word of two
/// letters the second, in a word of one letter none.
[[nodiscard]] std::optional<std::string> nearest_word(std::string_view typed, const std::vector<std::string>& known);

}  // namespace fettle
