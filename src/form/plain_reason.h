#pragma once

#include <map>
#include <string>

#include "gauging/sizes.h"

namespace fettle {

/// Beyond these a group would take minutes: nobody reads so many places by hand.
inline constexpr std::size_t kMostShapeCells = 144;
inline constexpr std::size_t kMostShapeRows = 288;

/// Text key of the reason of a part with too many places.
inline constexpr const char* kTooManyPlaces = "plainly.too_many_places";

/// By part: how many rows its readings bring, places times settings they were read under.
[[nodiscard]] std::map<std::string, std::size_t> rows_read(const SizeSet& set);

/// Why a part is judged plainly, each place by itself, as a text key; empty for a part that the shape model takes: a worn one, of a kind
/// with a pattern of wear, laid out at two places or more and read at one of them at least, of no more places than the model can bear.
/// `rows` of the part, from `rows_read`. Kept by PlainReason.*.
[[nodiscard]] std::string plain_reason(const PartOnBench& part, std::size_t rows);

}  // namespace fettle
