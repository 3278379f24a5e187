#pragma once

#include <string>

#include "limits/iso_fit.h"
#include "text/sentence.h"

namespace fettle {

/// A fit as a person reads it: deviations in µm, sizes in mm and inch, and what the two leave between them.
[[nodiscard]] std::string iso_fit_text(const IsoFit& fit, Language language);

}  // namespace fettle
