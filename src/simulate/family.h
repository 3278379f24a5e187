#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "catalogue/layout.h"
#include "entry/typed_quantity.h"
#include "gauging/part.h"
#include "limits/limit.h"

namespace fettle {

/// The book that limits of simulated engines say they stand in.
inline constexpr std::string_view kSimulatedBook = "invented, for simulation";

/// Drawn evenly between the two; the same twice: always that. Lengths in µm, depths as shares of ring travel, else no
/// unit.
struct Span {
  double low;
  double high;
  bool operator==(const Span&) const = default;
};

/// round: all directions alike. oval: cos 2(direction − axis).
enum class Pattern { round, oval };

/// How an amount is spread along the part, 1 at its worst place. x is the depth below the first counted station as a
/// share of the way to the last one, L the length drawn for the engine. A reference station never wears: 0 there, but
/// for `even`.
///   even         1
///   exponential  exp(−x/L)
///   linear       1 − x/L, not below 0
///   barrel       exp(−((x − 1/2)/L)²)
///   bell         (exp(−x/L) + 0.7 exp(−(1 − x)/L)) over its value at x = 0
///   step         1 above x = L, 0.15 below
///   rising       exp(−(1 − x)/L), 1 below the last station
enum class Profile { even, exponential, linear, barrel, bell, step, rising };

/// How the parts of one engine differ in an amount; z is normal, of each part its own.
///   about_amount   amount · (1 + likeness z)
///   about_nothing  amount · likeness z
///   one_sided      amount · (1 + likeness |z|): no Gaussian, so the family has no exact posterior
enum class Scatter { about_amount, about_nothing, one_sided };

/// One thing that makes the parts what they are: wear, ovality. `amount` is what it takes off the part at its worst
/// place: a bore gets larger by it, a shaft smaller; or for an oval, largest less smallest diameter there. With `follows` it is a share of that component's
/// amount, and has its profile and length.
struct Component {
  std::string id;
  Pattern pattern;
  double axis_degrees;                 ///< where an oval is worn most
  std::optional<std::size_t> follows;  ///< an earlier component
  Profile profile;
  Span length;
  Span amount;    ///< µm; with `follows` a share
  Span likeness;  ///< standard deviation of a part's own amount, as a share of it
  Scatter scatter;
};

/// One part at a random place that is not like the others, untold: a sleeve of another size, hardly worn.
struct OddPart {
  Span level_um;    ///< added to its diameters
  Span wear_share;  ///< its components are multiplied by this
};

struct FamilyLimit {
  std::string definition;
  TypedQuantity bound;
};

/// How the truth of one engine is made, and what a person does with it. A person adds one by writing a file like
/// data/families.toml: a table [usual] with the keys that most of the families share, and one [[family]] each with an
/// id and the keys in which it differs. Quantities and figures are quoted; a span is one of them or a list of two.
struct EngineFamily {
  std::string id;
  std::string about;
  std::string kind;     ///< of its parts: one of the catalogue's with a diameter
  Feature feature;      ///< of that kind: inside or outside
  std::size_t parts;
  Length standard;  ///< sizes of the truth are told from here
  Length new_low;   ///< the maker's tolerance, sizes
  Length new_high;
  double as_made_um;         ///< mean over engines, above `standard`
  double as_made_common_um;  ///< standard deviation of what all parts of one engine share
  double as_made_own_um;     ///< standard deviation of what each has of its own
  double texture_um;         ///< standard deviation of each place
  Layout layout;
  std::vector<Component> components;
  std::vector<double> steps_um;  ///< the real step above `standard`, each as likely; usually one of 0
  std::optional<OddPart> odd_part;
  Span three_lobe_um;  ///< out of roundness that no two-point gauge sees: known of the truth, in no diameter
  Step told_step;      ///< what the job says of the step
  Condition told_condition;
  bool tells_tolerance;             ///< the job has the limits for a new part
  std::vector<FamilyLimit> limits;  ///< for service; the size of a shaft at least, all others at most
  std::vector<std::size_t> unread_stations;
  std::vector<std::size_t> unread_directions;
  double untold_slip_um;  ///< added to every setting's error, which the job does not say
};

/// True if the truth is Gaussian given the hyperparameters, so that an exact posterior can be reckoned: no odd part,
/// nothing one-sided.
[[nodiscard]] bool is_gaussian(const EngineFamily& family);

/// The kind of simulated parts where the family names none.
inline constexpr std::string_view kSimulatedKind = "cylinder-bore";

/// Which way wear moves a diameter: +1 in a bore, -1 on a shaft.
[[nodiscard]] double wear_sign(const EngineFamily& family);

/// The side on which a limit for service is kept.
[[nodiscard]] LimitSide limit_side(const EngineFamily& family, std::string_view definition);

/// The profile at x = share, see `Profile`; above the first station as at it. Needs length > 0 but for `even`.
[[nodiscard]] double profile_at(Profile profile, double share, double length);

/// x of every station, see `Profile`. Needs a depth at every station.
[[nodiscard]] std::vector<double> depth_shares(const Layout& layout);

}  // namespace fettle
