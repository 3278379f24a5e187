#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "limits/thumb_rule.h"

namespace fettle {

/// The sizes of a part that rules reckon from, as typed; what is not known is left out.
struct ThumbSizes {
  std::optional<TypedQuantity> diameter;
  std::optional<TypedQuantity> length;
  std::optional<TypedQuantity> radius;
  std::optional<TypedQuantity> growth;
  std::optional<TypedQuantity> new_size;

  [[nodiscard]] const std::optional<TypedQuantity>& of(ThumbSize size) const;
};

/// What a rule gives at these sizes.
struct ThumbFigure {
  TypedQuantity bound;
  std::optional<TypedQuantity> per;
  std::optional<TypedQuantity> standard;
};

/// The figure of a rule: in the unit of the size, exactly, where that is a whole count of 0.1 nm; else, and for π, to the nearest count, in mm.
/// Nothing where the size it reckons from or counts from is not known, or is none that the rule is for. Needs sizes that are lengths.
/// Source: each rule's own origin. Kept by ThumbLimits.*, W-11, W-21, W-22, W-26, K-22.
[[nodiscard]] std::optional<ThumbFigure> thumb_figure(const ThumbRule& rule, const ThumbSizes& sizes);
/// Which size is missing for it; nothing if none is.
[[nodiscard]] std::optional<ThumbSize> thumb_size_missing(const ThumbRule& rule, const ThumbSizes& sizes);

/// limits.thumb_size_not_positive, for each size that is not above nothing.
[[nodiscard]] Problems thumb_problems(const ThumbSizes& sizes);

/// The limits that rules of thumb would set for a kind under a definition, where no book gives one. Each says that it is a rule of thumb and
/// that nobody has accepted it, so that limit_problems refuses it (limits.thumb_not_accepted) until a person does. A figure
/// to go by is not among them.
[[nodiscard]] std::vector<Limit> thumb_limits(std::string_view kind, std::string_view definition, const ThumbSizes& sizes);

}  // namespace fettle
