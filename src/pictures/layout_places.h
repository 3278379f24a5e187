#pragma once

#include <string>
#include <vector>

#include "catalogue/layout.h"
#include "text/sentence.h"

namespace fettle {

/// Where stations stand between `from` and `to`: to scale where all depths are known and no two would be closer than `least`, else
/// evenly.
[[nodiscard]] std::vector<double> station_places(const Layout& layout, double from, double to, double least);

[[nodiscard]] std::string station_words(const Station& station, Language language);
/// For narrow room: one line, or the two that the text files have for it.
[[nodiscard]] std::vector<std::string> narrow_direction_words(const Direction& direction, Language language);
[[nodiscard]] std::string direction_words(const Direction& direction, Language language);

}  // namespace fettle
