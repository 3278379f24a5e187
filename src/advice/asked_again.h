#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "catalogue/layout.h"
#include "form/shape_screen.h"

namespace fettle {

/// What hands do with a gauge that is in order.
enum class Slip { needle_side, dial_turn, thimble_turn, thimble_line, digits_exchanged, decimal_mark };

/// The size that the place would have if the text as typed came of this slip.
struct Supposed {
  Slip slip;
  double size_mm;
};

/// What is known of a place before a size is weighed there. Sizes in mm; what is not known is left out or empty.
struct PlaceKnown {
  Feature feature;
  std::optional<double> new_low;   ///< at the part's present step
  std::optional<double> new_high;
  std::optional<double> service;   ///< how far wear may go
  std::vector<double> same_part;   ///< other places of the part under the same setting, its foot among them
  std::optional<double> foot;      ///< the place of the part that does not wear, under the same setting
  std::vector<double> like_parts;  ///< the same place of other parts of the kind and step
  double doubt;                    ///< standard uncertainty of a size, everything counted
  double doubt_of_reading;         ///< what two sizes of one setting do not share
};

/// Why a size is asked about. as_new: more metal than a new part has. apart: far from what the part and its like show. worn: worn farther
/// than its limits let one believe.
enum class OutOfBand { as_new, apart, worn };

struct AskedAgain {
  OutOfBand why;
  std::optional<Slip> slip;  ///< nothing: no slip explains it, and it is impossible all the same
  bool toward_wear;          ///< it lies on the side to which parts wear
};

/// Whether a size deserves a question: it lies outside a wide band, and a slip would bring it inside (the first of them that does), or it
/// lies far outside everything. Of a figure, which may be anything, nothing is asked.
[[nodiscard]] std::optional<AskedAgain> asked_again(double size_mm, const PlaceKnown& place, const std::vector<Supposed>& supposed);

/// The band of a place as a forecast in mm: flat inside, made of a few normals, falling off outside by the doubt of a size. Where one edge is
/// not known it lies a millimetre away; nothing where neither is.
[[nodiscard]] Forecast forecast_of(const PlaceKnown& place);

/// "needle-side"; text key "advice.slip." + name
[[nodiscard]] std::string_view slip_name(Slip slip);

}  // namespace fettle
