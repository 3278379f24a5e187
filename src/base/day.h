#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace fettle {

/// The day in UTC of a time as people write it: "2031-05-04", "2031-05-04 10:12", with seconds, with "Z" or an offset as "+02:00", a T or a
/// space between. Without an offset the day stands as it was written. Nothing if it is no such text or no day of the calendar.
[[nodiscard]] std::optional<std::string> utc_day(std::string_view typed);

/// The same text as whole seconds since 1970 began, for telling how long ago something was. Nothing where no time of day stands.
[[nodiscard]] std::optional<std::int64_t> utc_seconds(std::string_view typed);

/// The same only where the text says its offset: then it is one moment, wherever it was written.
[[nodiscard]] std::optional<std::int64_t> moment_seconds(std::string_view typed);

}  // namespace fettle
