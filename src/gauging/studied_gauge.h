#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "entry/typed_quantity.h"

namespace fettle {

/// How a gauge study was reckoned.
enum class StudyMethod { variances, ranges };

[[nodiscard]] std::string_view study_method_name(StudyMethod method);

/// What a gauge study found, as a job holds it: how far repeated readings of one gauge spread in somebody's hand.
struct StudiedGauge {
  std::string gauge;                  ///< id of a gauge of the job
  std::optional<std::string> person;  ///< in whose hand; nothing: in anybody's
  TypedQuantity repeatability;        ///< standard deviation of one reading as it was read, rounding included
  std::int64_t degrees_of_freedom;    ///< of it, 1 or more
  StudyMethod method;
  std::optional<std::int64_t> parts;
  std::optional<std::int64_t> people;
  std::optional<std::int64_t> readings;
  std::string when;                   ///< as typed; may be empty
  std::string data;                   ///< hash of the study's readings, as `fettle gauge-study` gives it; may be empty
  std::string remark;                 ///< may be empty
  bool operator==(const StudiedGauge&) const = default;
};

}  // namespace fettle
