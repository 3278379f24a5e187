#pragma once

#include <vector>

#include "base/result.h"
#include "units/ratio.h"

namespace fettle {

/// The two-lobe fit D(θ) = m + a·cos 2θ + b·sin 2θ of one station as a linear map: each of mean, a and b is Σ row[i]·D[i], one
/// entry for each direction.
struct TwoLobeRows {
  std::vector<double> mean;
  std::vector<double> a;
  std::vector<double> b;
};

/// Least-squares rows for directions in degrees, unweighted. Needs three angles or more that differ within 180° (distinct points
/// 2θ on a circle are never on a line). Else numeric.two_lobe_too_few, numeric.two_lobe_undetermined (some within 0.1°).
/// Off by no more than 1e-12 for directions at least 10° apart. Worked out here, see docs/NUMBERS.md. Test: TwoLobeRows.RowsGiveBackTheirOwnOval.
[[nodiscard]] Result<TwoLobeRows> two_lobe_rows(const std::vector<Ratio>& angles_degrees);

/// 2·√(a² + b²) of sizes in mm, in the order of the angles; needs as many as the rows are long.
[[nodiscard]] double ovality_mm(const TwoLobeRows& rows, const double* sizes_mm);

}  // namespace fettle
