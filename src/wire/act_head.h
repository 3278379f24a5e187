#pragma once

#include <string>

#include "base/problem.h"
#include "wire/act.h"

namespace fettle {

/// So many bytes at most: initials or a name, and what a device calls itself.
inline constexpr std::int64_t kLongestName = 80;

/// A name that is empty, too long or holds a control character. Problems: wire.not_a_name, under `key`.
[[nodiscard]] Problems problems_of_name(const char* key, const std::string& name);

/// Who does something, on which device and when: a time of day without its offset is no moment. Problems: wire.not_a_name, wire.not_a_moment.
[[nodiscard]] Problems problems_of_head(const ActHead& head);

}  // namespace fettle
