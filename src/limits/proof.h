#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/message.h"
#include "catalogue/catalogue.h"
#include "limits/sheet.h"

namespace fettle {

/// certain: the figures cannot all be right. odd: nothing forbids it, but look again.
enum class HowSure { certain, odd };
[[nodiscard]] std::string_view how_sure_name(HowSure sure);

/// Where a figure stands in a sheet.
struct FigureSpot {
  std::string row;
  SheetField field;
  auto operator<=>(const FigureSpot&) const = default;
};

/// A figure that may have been meant.
struct Likeliest {
  FigureSpot spot;
  std::string text;  ///< with its unit
  bool operator==(const Likeliest&) const = default;
};

/// One trouble of a sheet.
struct ProofFinding {
  std::string_view rule;
  HowSure sure;
  std::vector<FigureSpot> spots;     ///< where it stands; what the finding is about comes first
  Message arithmetic;                ///< what was reckoned, with the figures
  std::vector<Likeliest> likeliest;  ///< the most likely first; several where nothing tells them apart
  std::string printed;               ///< what is printed at the first spot
  std::optional<SheetDecision> decided = {};  ///< what a person said to it
};

/// The rules; one trouble is told once, by the first that sees it, and what hangs on it waits. Each asks about figures and, where all figures of a row are out by
/// a power of ten or an inch, once about the row.
///   page-factor      every figure of a page was converted by one wrong factor (0.0394, 25, centimetres for millimetres)
///   units-disagree   the two units of a cell are different lengths, torques, forces ...
///   false-slope      a slope "per inch" and "per mm" is one number
///   series           a row of steps does not go up by its step, or all of them by steps of the other unit
///   range-backwards  from is greater than to
///   bands            what to choose leaves sizes out, or names one twice
///   reckoned         a figure does not follow from those it is made of (fit, clearance, ratio, sum of dial readings)
///   double-rounding  the same, where the figures were converted, rounded, and converted back
///   fit-code         what is new is not what the ISO fit beside it says
///   tightening       a stage in two units that disagree, or below an earlier one; a sequence that leaves a bolt out or names one twice
///   width-odd        a range is much wider than those beside it, and one digit would make it alike
///   wear-side        the wear limit lies on the side to which nothing wears, inside what is new, or further away than parts wear
///   wear-at-new      the wear limit is the end of what is new
///   two-figures      one thing has two figures, or a size is another power of ten than those of its kind
[[nodiscard]] std::vector<std::string_view> proof_rules();

/// Every trouble, in the order of the rows. A figure that a person put right is read as it was put right. Needs a sheet whose `from` can be read.
[[nodiscard]] std::vector<ProofFinding> proof_read(const LimitSheet& sheet, const Catalogue& known);

/// The sheet with what people put right put right. What cannot be read any more stays as printed.
[[nodiscard]] LimitSheet as_decided(const LimitSheet& sheet);

}  // namespace fettle
