#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/message.h"
#include "entry/typed_quantity.h"

namespace fettle {

/// note: kept; needs_test: another test must say; condemns: the part is beyond whatever the gauge says.
enum class FindingWeight { note, needs_test, condemns };

/// What the eye saw. A finding like a reading; it outranks the size.
struct Finding {
  std::string part;
  std::string what;                      ///< as the person says it
  FindingWeight weight;
  std::string where;                     ///< may be empty
  std::optional<TypedQuantity> depth;
  bool operator==(const Finding&) const = default;
};

/// "By eye: a score (top, exhaust side)".
[[nodiscard]] Message seen_message(const Finding& finding);

[[nodiscard]] std::string_view weight_name(FindingWeight weight);

}  // namespace fettle
