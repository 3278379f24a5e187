#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "catalogue/definition.h"
#include "catalogue/layout.h"
#include "entry/typed_quantity.h"

namespace fettle {

/// fresh: what a new part must keep. service: up to where a used part may go on.
enum class LimitRole { fresh, service };
enum class LimitSide { at_most, at_least };

/// The row of a limit sheet that a limit stands for.
struct SheetOrigin {
  std::string sheet;
  std::string row;
  bool open;           ///< it rests on a figure that is asked about and was not decided
  /// The id of the limit as printed, which all limits share that say it under one definition each, because the book does not say which. Empty: it does.
  std::string unsaid;
  bool operator==(const SheetOrigin&) const = default;
};

/// Where a limit comes from. A rule of thumb counts only if a person accepted it.
struct LimitOrigin {
  std::string book;
  std::string edition;
  std::string page;
  std::string decision;  ///< what a person decided about it, may be empty
  bool rule_of_thumb;
  bool accepted;
  std::optional<SheetOrigin> sheet = {};  ///< nothing: it was entered by itself
  bool operator==(const LimitOrigin&) const = default;
};

/// One bound of one characteristic of the parts of a kind.
struct Limit {
  std::string id;
  std::string kind;
  std::string definition;              ///< id in the catalogue: the way of reckoning that the book means
  LimitRole role;
  LimitSide side;
  TypedQuantity bound;                 ///< as printed
  std::optional<TypedQuantity> per;    ///< "per this length"; only for a definition that gives a ratio
  std::optional<TypedQuantity> standard;  ///< the standard size that a wear definition counts from, as the book states it
  LimitOrigin origin;
  bool operator==(const Limit&) const = default;
};

/// The bound in the unit that its definition gives: counts of 0.1 nm, or a plain ratio.
[[nodiscard]] Ratio bound_of(const Limit& limit);

/// Everything wrong with a limit, all at once. Problems: limits.unknown_definition, .not_for_feature, .needs_other (listed, not
/// judged), .not_for_kind, .wrong_dimension, .per_missing, .per_not_wanted, .standard_missing, .origin_missing, .thumb_not_accepted,
/// .not_positive, .wrong_end. `definition` may be null.
[[nodiscard]] Problems limit_problems(const Limit& limit, const Definition* definition, Feature feature);

[[nodiscard]] std::string_view role_name(LimitRole role);
[[nodiscard]] std::string_view side_name(LimitSide side);

}  // namespace fettle
