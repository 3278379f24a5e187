#pragma once

#include "base/result.h"
#include "units/length.h"
#include "units/quantity.h"
#include "units/ratio.h"

// Sound code that every file here begins with: if it stops compiling, refuse.control fails and says so.
namespace fettle {

inline const Length kBore = Length::counts(840548000);
inline const Length kStandard = Length::counts(839978000);
inline const Quantity kTravel{Ratio(57), UnitId::division};
inline const Length kDifference = kBore - kStandard;
inline const bool kLarger = kBore > kStandard;
inline Result<Length> measured() { return kBore; }

}  // namespace fettle
