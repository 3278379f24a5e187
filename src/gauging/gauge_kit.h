#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "entry/typed_quantity.h"

namespace fettle {

/// What the mark on a rod stands for: the size of a hole in which the sprung contact is just free, or the one in which it is pressed
/// in by half of its travel.
enum class RodsReach { contact_free, middle_of_travel };

/// The pieces that belong to one bore gauge, as its owner typed them. Each is a thing of its own: equal ones may occur several times.
struct GaugeKit {
  std::vector<TypedQuantity> rods;
  std::vector<TypedQuantity> washers;
  std::vector<TypedQuantity> extensions;
  RodsReach rods_reach;
  TypedQuantity travel;                        ///< of the sprung contact
  std::optional<TypedQuantity> least_pressed;  ///< least that the contact has to be pressed in; nothing: 0.1 mm
  std::optional<TypedQuantity> range_from;
  std::optional<TypedQuantity> range_to;
  bool operator==(const GaugeKit&) const = default;
};

/// One rod, washer or extension.
struct KitPiece {
  std::string text;  ///< as typed
  Length length;
  bool operator==(const KitPiece&) const = default;
};

/// The kit with its figures made exact and checked.
struct KnownKit {
  std::vector<KitPiece> rods;
  std::vector<KitPiece> washers;
  std::vector<KitPiece> extensions;
  RodsReach rods_reach;
  Length travel;
  Length least_pressed;
  std::optional<Length> range_from;
  std::optional<Length> range_to;
};

/// All combinations are gone through, so there are no more pieces than this.
inline constexpr std::size_t kMostRods = 64;
inline constexpr std::size_t kMostWashers = 12;
inline constexpr std::size_t kMostExtensions = 8;

/// Makes a kit exact. `gauge`: its id, for the problems. Problems: gauging.kit_no_rods, .kit_too_many, .kit_not_positive (a piece, the
/// travel, or a least pressing in below nothing), .kit_least_pressed (not below half of the travel), .kit_range (from not below to).
[[nodiscard]] Result<KnownKit> know_kit(const GaugeKit& kit, const std::string& gauge, const Place& place);

/// Rod, extension and washers that are put together, and how the contact then stands in a hole of the wanted size.
struct Assembly {
  KitPiece rod;
  std::optional<KitPiece> extension;
  std::vector<KitPiece> washers;  ///< longest first: that one goes on first
  Length reach;                   ///< size of a hole in which the contact is just free
  Length pressed_in;              ///< at the wanted size
  Length left_for_larger;         ///< how much larger a hole may be: until only `least_pressed` is left
  Length left_for_smaller;        ///< how much smaller a hole may be: until the contact is pressed in wholly
  bool in_the_span;               ///< pressed in by a third to half of the travel
};

struct Assembled {
  Assembly best;
  std::optional<Assembly> next_best;  ///< of other lengths
};

/// Puts a kit together for a hole of the wanted size: one rod, no or one extension, any washers, each piece once. reach = rod +
/// extension + washers, and half of the travel more where rods are marked for the middle of it; pressed in = reach − size; exact, in
/// counts. Choice: pressed in by a third to half of the travel, fewest washers, closest to the middle of that span; where no assembly
/// lies in the span, any within the travel, nearest to the span first. Ties: no extension, the longer rod, the longer washers: the order
/// in which pieces were typed does not matter. Problems: gauging.kit_outside_range; gauging.kit_too_short, .kit_too_long or .kit_gap
/// with the nearest sizes that can be reached on either side, in `shown`, and which rod or washer would do. Kept by GaugeKit.*.
[[nodiscard]] Result<Assembled> assemble(const KnownKit& kit, Length wanted, const std::string& gauge, UnitId shown);

}  // namespace fettle
