#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "units/length.h"

namespace fettle {

/// A standard tolerance grade of ISO 286-1: IT1 to IT18 by their number, IT0 as 0, IT01 (finer than IT0) as -1.
struct IsoGrade {
  int number;
  bool operator==(const IsoGrade&) const = default;
};

/// The grade written as in a code: "7", "0", "01". Nothing for anything else, "007" and "19" among it.
[[nodiscard]] std::optional<IsoGrade> read_grade(std::string_view text);
[[nodiscard]] std::string grade_text(IsoGrade grade);

/// A step of nominal sizes: over the one, up to and including the other.
struct IsoStep {
  Length over;
  Length up_to;
  bool operator==(const IsoStep&) const = default;
};

/// The step that a nominal size lies in, of the steps of the grades (over 50 up to 80 mm) and of the finer ones of the deviations (over 50
/// up to 65 mm). Needs 0 < nominal <= 500 mm.
[[nodiscard]] IsoStep iso_step(Length nominal);
[[nodiscard]] IsoStep iso_fine_step(Length nominal);

/// The tolerance of a grade, exactly. Units: Length. Needs 0 < nominal <= 500 mm. Source: [iso286] table 1, written from memory; IT5 to IT18
/// are held against the standard's formula, and the cells that do not follow it are named, by IsoTables.GradesFollowTheFormula.
[[nodiscard]] Length standard_tolerance(IsoGrade grade, Length nominal);

/// Where the fundamental deviation of a letter stands, by its shaft ("h" for H and h).
enum class IsoSide {
  below,     ///< a to h: the shaft's upper deviation is minus the figure, the hole's lower one plus
  about,     ///< j and js
  above      ///< k to zc: the shaft's lower deviation is the figure, the hole's upper one minus it, and the delta
};

/// One letter of [iso286] tables 2 to 5.
struct IsoLetter {
  std::string_view letters;  ///< small
  IsoSide side;
  int over_mm;               ///< tabulated over this size
  int up_to_mm;              ///< and up to and including this one
};

/// Nothing for letters that the standard does not have.
[[nodiscard]] const IsoLetter* iso_letter(std::string_view small);
/// Every letter, in the order of the standard.
[[nodiscard]] std::vector<std::string> iso_letters();

/// The figure of a letter without its sign, in whole micrometres: for all letters but j and js. Needs a nominal size at which the letter is
/// tabulated. Of k it is that of grades 4 to 7. Source: [iso286] tables 2 to 5, from memory, held against the standard's formulas.
[[nodiscard]] Length letter_deviation(std::string_view small, Length nominal);

/// How far below the nominal size the shaft j reaches: its lower deviation, with its sign. Nothing but for j5, j6, j7, and up to 3 mm j8.
[[nodiscard]] std::optional<Length> shaft_j(IsoGrade grade, Length nominal);
/// How far above it the hole J reaches: its upper deviation. Nothing but for J6, J7, J8.
[[nodiscard]] std::optional<Length> hole_j(IsoGrade grade, Length nominal);

}  // namespace fettle
