#pragma once

#include <optional>
#include <vector>

#include "limits/proof_desk.h"

namespace fettle {

/// What a range that cannot be, or is too wide, may have been meant to be: its ends exchanged, or one of them with one slip less, or as its fit has it. The end that
/// stays helps the other: what the fits, the rows beside it and the wear limit say comes first, then a width like the usual one. At most four, the
/// likeliest first. `usual`: only digits that make the width 1/5 to 5 times this (base unit). Only for the rules.
[[nodiscard]] std::vector<Likeliest> mended_range(const ProofDesk& desk, const SheetRow& row, UnitFamily family, std::optional<double> usual = {});

}  // namespace fettle
