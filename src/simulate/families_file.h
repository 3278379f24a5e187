#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "simulate/family.h"
#include "simulate/hand.h"

namespace fettle {

/// Reads a file of families in the form of data/families.toml: [usual] and [[family]]. Gives all of them, or every
/// problem with its line: syntax, keys that are missing or unknown, ids twice, what catalogue/layout.h and
/// limits/limit.h refuse, and simulate.span (the first above the second), .negative, .no_length, .unknown_place,
/// .follows, .parts, .no_depth, .nothing_read, .tolerance, .no_micrometer, .cannot_be_read (a limit's definition and
/// the layout), .no_families.
[[nodiscard]] Result<std::vector<EngineFamily>> read_families(std::string_view text, const std::string& file);

/// Reads a file of hands in the form of data/hands.toml. Problems as above, and simulate.division, .count.
[[nodiscard]] Result<std::vector<Hand>> read_hands(std::string_view text, const std::string& file);

/// What is built in, read once by the same readers. A problem in it is an InternalError.
[[nodiscard]] const std::vector<EngineFamily>& built_in_families();
[[nodiscard]] const std::vector<Hand>& built_in_hands();

/// Null if there is none of this id.
[[nodiscard]] const EngineFamily* find_family(const std::vector<EngineFamily>& families, std::string_view id);
[[nodiscard]] const Hand* find_hand(const std::vector<Hand>& hands, std::string_view id);

}  // namespace fettle
