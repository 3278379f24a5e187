#pragma once

#include "limits/proof_desk.h"

namespace fettle {

/// What the rest of a sheet says to a row as it might be: its other unit, its fit and the fits that follow from it, the rows beside it in a series,
/// its wear limit. Each says one word.
struct Heard {
  int against;
  int with;
  static constexpr int kImpossible = 100;
  /// Its range runs backwards.
  [[nodiscard]] bool is_impossible() const { return against >= kImpossible; }
  /// Less is better: fewer against, then more with it.
  auto operator<=>(const Heard& other) const {
    if (const auto first = against <=> other.against; first != 0) return first;
    return other.with <=> with;
  }
  bool operator==(const Heard&) const = default;
};

[[nodiscard]] Heard hear(const ProofDesk& desk, const SheetRow& as);

/// Greatest less least of a new range in mm or in; nothing where no unit has both.
[[nodiscard]] std::optional<double> width_of(const SheetRow& row, UnitFamily family);

}  // namespace fettle
