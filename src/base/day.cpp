#include "base/day.h"

#include <algorithm>
#include <charconv>
#include <chrono>

namespace fettle {
namespace {

/// Takes fixed digits and marks off the front of a text.
class Front {
 public:
  explicit Front(std::string_view text) : text_(text) {}

  [[nodiscard]] bool empty() const { return text_.empty(); }

  std::optional<int> number(std::size_t digits) {
    if (text_.size() < digits) return std::nullopt;
    int out = 0;
    const auto [end, error] = std::from_chars(text_.data(), text_.data() + digits, out);
    if (error != std::errc() || end != text_.data() + digits || text_.front() == '-') return std::nullopt;
    text_.remove_prefix(digits);
    return out;
  }

  bool mark(char wanted) {
    if (text_.empty() || text_.front() != wanted) return false;
    text_.remove_prefix(1);
    return true;
  }

 private:
  std::string_view text_;
};

struct Time {
  int minutes = 0;  ///< since midnight
  bool sound = true;
  int seconds = 0;  ///< of the minute
};

/// "10:12" with seconds and parts of them, if it stands there.
Time time_of(Front& front) {
  const auto hour = front.number(2);
  const bool colon = hour && front.mark(':');
  const auto minute = colon ? front.number(2) : std::nullopt;
  if (!minute || *hour > 23 || *minute > 59) return {0, false};
  int seconds = 0;
  if (front.mark(':')) {
    const auto second = front.number(2);
    if (!second || *second > 60) return {0, false};
    seconds = std::min(*second, 59);  // a leap second
    if (front.mark('.')) {
      while (front.number(1)) {
      }
    }
  }
  return {60 * *hour + *minute, true, seconds};
}

/// Minutes east of Greenwich; nothing said is as it was written.
Time offset_of(Front& front) {
  if (front.empty() || front.mark('Z')) return {0, front.empty()};
  const bool west = front.mark('-');
  if (!west && !front.mark('+')) return {0, false};
  const auto hours = front.number(2);
  front.mark(':');
  const auto minutes = hours ? front.number(2) : std::nullopt;
  if (!minutes || *hours > 14 || *minutes > 59) return {0, false};
  return {(west ? -1 : 1) * (60 * *hours + *minutes), front.empty()};
}

std::string padded(int number, std::size_t digits) {
  const std::string out = std::to_string(number);
  return std::string(digits - std::min(digits, out.size()), '0') + out;
}

/// A day of the calendar, and a moment of it where one was written.
struct Moment {
  std::chrono::sys_seconds at;
  bool time_of_day;
  bool offset;  ///< was said
};

std::optional<Moment> moment_of(std::string_view typed) {
  Front front(typed);
  const auto year = front.number(4);
  const auto month = year && front.mark('-') ? front.number(2) : std::nullopt;
  const auto day = month && front.mark('-') ? front.number(2) : std::nullopt;
  if (!day) return std::nullopt;
  const std::chrono::year_month_day written{std::chrono::year(*year), std::chrono::month(static_cast<unsigned>(*month)),
                                            std::chrono::day(static_cast<unsigned>(*day))};
  if (!written.ok()) return std::nullopt;
  const std::chrono::sys_seconds midnight = std::chrono::sys_days(written);
  if (front.empty()) return Moment{midnight, false, false};
  if (!front.mark('T') && !front.mark(' ')) return std::nullopt;
  const Time time = time_of(front);
  front.mark(' ');
  const bool said = !front.empty();
  const Time offset = time.sound ? offset_of(front) : Time{0, false};
  if (!offset.sound) return std::nullopt;
  return Moment{midnight + std::chrono::minutes(time.minutes - offset.minutes) + std::chrono::seconds(time.seconds), true, said};
}

}  // namespace

std::optional<std::string> utc_day(std::string_view typed) {
  const auto moment = moment_of(typed);
  if (!moment) return std::nullopt;
  const std::chrono::year_month_day out(std::chrono::floor<std::chrono::days>(moment->at));
  return padded(int(out.year()), 4) + "-" + padded(static_cast<int>(unsigned(out.month())), 2) + "-" + padded(static_cast<int>(unsigned(out.day())), 2);
}

std::optional<std::int64_t> utc_seconds(std::string_view typed) {
  const auto moment = moment_of(typed);
  if (!moment || !moment->time_of_day) return std::nullopt;
  return moment->at.time_since_epoch().count();
}

std::optional<std::int64_t> moment_seconds(std::string_view typed) {
  const auto moment = moment_of(typed);
  if (!moment || !moment->offset) return std::nullopt;
  return moment->at.time_since_epoch().count();
}

}  // namespace fettle
