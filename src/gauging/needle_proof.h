#pragma once

#include <optional>

#include "gauging/needle.h"
#include "gauging/thimble.h"

namespace fettle {

/// A needle place as it is read: between two whole divisions, or on one.
struct NeedleBetween {
  NeedlePlace exact;
  std::int64_t low;   ///< whole divisions below ...
  std::int64_t high;  ///< ... and above; equal on a line
};

/// One proof of everything that a needle place rests on: the master is opened (or closed) by an amount that its thimble shows exactly.
struct NeedleProof {
  bool opens;             ///< false: closed, which presses the contact in farther
  ThimblePlace amount;    ///< above nothing; only what it shows has a meaning
  ThimblePlace from;      ///< where the thimble stands now
  ThimblePlace to;
  NeedleBetween right;    ///< where the needle must stand
  NeedleBetween reversed; ///< ... if it runs the other way than stated
  NeedleBetween half;     ///< ... if one division is half of what is stated: twice as many
  NeedleBetween twice;    ///< ... if one division is twice what is stated: half as many
};

/// How a gauge is zeroed that is to be proved.
struct ProofInput {
  const KnownGauge& gauge;   ///< with a division and a needle sense
  const KnownGauge& master;  ///< a micrometer
  ThimblePlace set;          ///< where it is locked
  /// How much farther the contact may come out, and go in; nothing: not known.
  std::optional<Length> may_come_out;
  std::optional<Length> may_go_in;
};

/// Chooses the amount by which the four places above lie farthest apart on the dial, seen without counting turns: so that the needle
/// tells which of the three is wrong. Less than one turn, inside travel and the master's range; opening before closing. A dial whose turn
/// is not known is taken to have more than 100 divisions. Half a turn is never chosen: there the reversed needle comes to stand in the same place.
/// Nothing where no amount sets the places 4 divisions apart. Needs `gauge.division` and `gauge.pressed_in`. Kept by NeedleProof.*.
[[nodiscard]] std::optional<NeedleProof> prove_needle(const ProofInput& input);

/// Between which whole divisions a place lies.
[[nodiscard]] NeedleBetween between_divisions(const NeedlePlace& place);

}  // namespace fettle
