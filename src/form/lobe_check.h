#pragma once

#include <optional>
#include <vector>

#include "base/result.h"
#include "units/ratio.h"

namespace fettle {

enum class LobeWord {
  not_possible,    ///< fewer than four directions: an oval goes through every reading
  fits,            ///< what the oval leaves over is what the reading's own uncertainty leaves
  one_stands_out,  ///< without one reading the others lie on an oval
  does_not_fit     ///< more than an oval and its noise, and no one reading explains it (with four directions none ever can)
};

struct LobeCheck {
  LobeWord word;
  std::optional<double> ovality_mm;        ///< of the fit through all directions
  std::optional<double> direction_degrees; ///< of the largest diameter, 0 to below 180; nothing for a circle
  std::optional<double> residual_sd_mm;    ///< nothing with three directions
  std::optional<std::size_t> direction;    ///< index of the reading that stands out
};

/// Fits an oval through the diameters of one station and compares what it leaves over with the standard uncertainty of one
/// reading: Σ r²/u² against the 99 % point of χ² with n − 3 degrees of freedom (reference key nist_chi_square); past it, every
/// direction is left out in turn, and one is named if it alone explains the rest.
/// Sizes in mm in the order of the angles; 3 to 24 directions; uncertainty above 0. Problems numeric.two_lobe_too_few,
/// numeric.two_lobe_undetermined. A sound station is called a misfit in one case of a hundred. Test: LobeCheck.
[[nodiscard]] Result<LobeCheck> check_lobe(const std::vector<Ratio>& angles_degrees, const std::vector<double>& sizes_mm,
                                           double reading_uncertainty_mm);

}  // namespace fettle
