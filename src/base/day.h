#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace fettle {

/// The day in UTC of a time as people write it: "2031-05-04", "2031-05-04 10:12", with seconds, with "Z" or an offset as "+02:00", a T or a
/// space between. Without an offset the day stands as it was written. Nothing if it is no such text or no day of the calendar.
[[nodiscard]] std::optional<std::string> utc_day(std::string_view typed);

}  // namespace fettle
