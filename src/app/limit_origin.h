#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "app/judge_job.h"

namespace fettle {

/// Stands at every figure that is a rule of thumb, wherever it is printed; the texts have it too.
inline constexpr std::string_view kThumbSign = "†";

/// Where a limit comes from. Of a rule of thumb: that it is one, whose, and who accepted it.
[[nodiscard]] Message origin_message(const Limit& limit);

/// Behind a bound or an id: the sign of a rule of thumb with a blank before it, else nothing.
[[nodiscard]] std::string thumb_sign(const Limit& limit);

/// The same words, and if `by_thumb` that a rule of thumb says so.
[[nodiscard]] Message said_by(Message said, bool by_thumb);

/// Ids of the service limits that are rules of thumb and by which some part was judged, in the order of the limits: the word on the engine as a
/// whole counts them.
[[nodiscard]] std::vector<std::string> thumb_limits_at_work(const JudgedJob& judged);

}  // namespace fettle
