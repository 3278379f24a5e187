#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"
#include "catalogue/layout.h"
#include "limits/iso_tables.h"

namespace fettle {

/// A tolerance class at a nominal size: "H7" of 80 mm. All exact.
struct IsoClass {
  std::string code;     ///< as printed
  Feature feature;      ///< inside: a hole, written with capitals; outside: a shaft
  std::string letters;  ///< as printed
  IsoGrade grade;
  Length tolerance;
  Length lower;         ///< deviations from the nominal size, with their sign
  Length upper;
  bool operator==(const IsoClass&) const = default;
};

/// A hole, a shaft, or both, of one nominal size.
struct IsoFit {
  Length nominal;
  IsoStep step;  ///< the step of nominal sizes of the grades
  std::optional<IsoClass> hole;
  std::optional<IsoClass> shaft;
};

/// Which sort of fit: the hole is never smaller than the shaft; it may be either; it is never larger.
enum class FitSort { clearance, transition, interference };

/// Hole minus shaft: negative is interference.
struct IsoPlay {
  Length least;
  Length most;
  FitSort sort;
};

/// Gives the limits of a code as printed, "H7", "g6", "H7/g6", at a nominal size: the case of the letters decides hole or shaft. Units:
/// Length, exact, on the grid of the standard (0.1 µm; half of that for js). Blanks at the ends and beside the stroke count for nothing.
/// Problems, all at once: limits.fit_empty, .fit_blank, .fit_unreadable, .fit_mixed_case, .fit_letter, .fit_grade, .fit_not_this_grade,
/// .fit_not_this_size, .fit_grade_not_this_size, .fit_same_side, .fit_nominal_not_positive, .fit_nominal_too_large, .fit_no_size_left.
/// Source: [iso286], rules of 4.3; tables from memory. Kept by IsoFit.* and tests/outside/fits.
[[nodiscard]] Result<IsoFit> read_iso_fit(std::string_view code, Length nominal, const Place& place);

/// Nothing unless both are there.
[[nodiscard]] std::optional<IsoPlay> play_of(const IsoFit& fit);

/// "clearance": the text key of a sort is "fit.sort." + this.
[[nodiscard]] std::string_view sort_name(FitSort sort);

}  // namespace fettle
