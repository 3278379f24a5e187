#include "pictures/layout_places.h"

namespace fettle {

std::vector<double> station_places(const Layout& layout, double from, double to, double least) {
  const std::size_t n = layout.stations.size();
  std::vector<double> out;
  for (std::size_t i = 0; i < n; ++i) {
    out.push_back(n == 1 ? (from + to) / 2.0 : from + (to - from) * static_cast<double>(i) / static_cast<double>(n - 1));
  }
  std::vector<double> scaled;
  for (const Station& each : layout.stations) {
    if (!each.depth) return out;
    scaled.push_back(each.depth->millimetres());
  }
  const double deepest = scaled.back();
  const double first = scaled.front();
  if (n < 2 || deepest <= first) return out;
  for (double& each : scaled) each = from + (to - from) * (each - first) / (deepest - first);
  for (std::size_t i = 1; i < n; ++i) {
    if (scaled[i] - scaled[i - 1] < least) return out;
  }
  return scaled;
}

std::string station_words(const Station& station, Language language) { return word_for("station." + station.id, language); }
std::string direction_words(const Direction& direction, Language language) {
  return word_for("direction." + direction.id, language);
}

std::vector<std::string> narrow_direction_words(const Direction& direction, Language language) {
  const std::string key = "pictures.side." + direction.id;
  const std::string words = has_key(key, language) ? word_for(key, language) : direction_words(direction, language);
  const std::size_t cut = words.find('\n');
  if (cut == std::string::npos) return {words};
  return {words.substr(0, cut), words.substr(cut + 1)};
}

}  // namespace fettle
