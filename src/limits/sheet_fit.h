#pragma once

#include <string>

#include "limits/iso_fit.h"
#include "limits/sheet.h"

namespace fettle {

/// Gives what a fit of a sheet says: "52 H7" or "52 mm H7/p6", a nominal size and a code of ISO 286. A bare size is in mm, as the standard has it. Problems: those
/// of read_iso_fit and of the size, and limits.fit_no_size.
[[nodiscard]] Result<IsoFit> read_sheet_fit(const std::string& text, const Place& place);

/// What is new by the fit, in mm as the standard counts: the sizes of the hole where `feature` is inside, of the shaft where it is outside, the play of both where it
/// is neither. Empty where the fit says nothing of that.
[[nodiscard]] PrintedRange fresh_by_fit(const IsoFit& fit, Feature feature);

}  // namespace fettle
