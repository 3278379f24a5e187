#pragma once

#include <map>
#include <optional>
#include <utility>
#include <vector>

#include "limits/proof_desk.h"

namespace fettle {

/// How wide the ranges of a sheet are: medians in mm or in, reckoned when first asked for. Only for the rules.
class UsualWidths {
 public:
  explicit UsualWidths(const ProofDesk& desk) : desk_(desk) {}
  /// Nothing of fewer than three.
  [[nodiscard]] std::optional<double> of(UnitFamily family, Dimension dimension);

 private:
  const ProofDesk& desk_;
  std::map<std::pair<UnitFamily, Dimension>, std::optional<double>> known_;
};

/// What a range that cannot be, or is too wide, may have been meant to be: its ends exchanged, or one of them with one slip less, or as its fit has it. The end that
/// stays helps the other: what the fits, the rows beside it and the wear limit say comes first, then a width like the usual one. At most four, the
/// likeliest first. `usual`: only digits that make the width 1/5 to 5 times this (base unit). Only for the rules.
[[nodiscard]] std::vector<Likeliest> mended_range(const ProofDesk& desk, const SheetRow& row, UnitFamily family, UsualWidths& widths, std::optional<double> usual = {});

}  // namespace fettle
