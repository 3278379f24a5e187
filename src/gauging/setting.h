#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "entry/typed_quantity.h"

namespace fettle {

/// A look at the zero in the middle of a round: back on the same locked master, the rim untouched, the needle read. It finds drift and
/// knocks; it draws no new setting error, as setting afresh does.
struct ZeroCheck {
  std::string round;         ///< as the readings have it; may be empty
  std::int64_t after_order;  ///< after the reading of this order in the round; 0: before the first
  TypedQuantity shows;       ///< needle place
  bool operator==(const ZeroCheck&) const = default;
};

/// One act of setting: a comparison gauge zeroed on a master, or a direct gauge taken to hand with its zero as recorded. All
/// readings under it share its error.
struct Setting {
  std::string id;
  std::string gauge;
  std::optional<std::string> master;               ///< gauge id of the micrometer, ring or blocks; nothing for a direct gauge
  std::optional<TypedQuantity> wanted;             ///< the nominal that was aimed at
  std::optional<TypedQuantity> set;                ///< what the micrometer was really set to; a ring's is its marked size
  std::optional<TypedQuantity> opening_zero;       ///< needle place with the gauge on its master; nothing: zero
  std::optional<TypedQuantity> closing_zero;       ///< the same at the end of the round; nothing: not checked
  std::optional<NeedleSide> plus_means;            ///< what a bare + in the readings stands for
  std::optional<TypedQuantity> master_temperature;
  std::optional<TypedQuantity> part_temperature;   ///< of all parts read under it, unless a reading has its own
  /// In place of `opening_zero` where the zero was found several times, two to five; their mean is the zero.
  std::optional<std::vector<TypedQuantity>> opening_zeros = {};
  std::optional<std::vector<ZeroCheck>> checks = {};
  /// The micrometer was locked on this part, not set to a size: the dial reads the clearance to it. `wanted` is then its nominal size.
  std::optional<std::string> locked_on = {};
  std::optional<std::string> afresh_of = {};  ///< the earlier setting of the same gauge that this one replaces
  bool operator==(const Setting&) const = default;
};

}  // namespace fettle
