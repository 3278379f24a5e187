#include "gauging/reading_moment.h"

#include <charconv>

namespace fettle {

ReadingMoment moment_in(const std::string& round, std::int64_t order) {
  long number = 0;
  const auto [end, error] = std::from_chars(round.data(), round.data() + round.size(), number);
  const bool whole = error == std::errc() && end == round.data() + round.size();
  return whole ? ReadingMoment{0, number, round, order} : ReadingMoment{1, 0L, round, order};
}

}  // namespace fettle
