#pragma once

#include <string>
#include <vector>

#include "gauging/sizes.h"
#include "numeric/block_gaussian.h"

namespace fettle {

/// From where and which way the model counts: µm from `base_mm`, positive in the direction of wear.
struct ShapeOrigin {
  double base_mm;
  double sign;  ///< +1 inside, −1 outside

  bool operator==(const ShapeOrigin&) const = default;
  [[nodiscard]] double to_um(double mm) const { return sign * (mm - base_mm) * 1000.0; }
  [[nodiscard]] double to_mm(double um) const { return base_mm + sign * um / 1000.0; }
};

/// One row of the model: what one setting says of one place.
struct ShapeRow {
  std::size_t part;                   ///< index in the group
  std::size_t cell;
  std::string setting;
  std::vector<std::string> readings;  ///< event ids
  std::vector<ErrorTerm> terms;       ///< of the row in mm, the part's own sign not applied
  bool operator==(const ShapeRow&) const = default;
};

/// The readings of a group as the model takes them.
struct ShapeRows {
  std::vector<BlockRows> blocks;             ///< by part
  std::vector<std::vector<ShapeRow>> rows;   ///< by part, beside the block's rows
  std::size_t error_columns;
  std::vector<std::size_t> named_sources;    ///< sources that have an error column of their own: the last ones
  double stated_shift_um = 0.0;              ///< sd of what the error columns add to the mean of all rows
  double heard_shift_um = 0.0;               ///< what is known of that from outside of the group, already taken off the values
  bool operator==(const ShapeRows&) const = default;
};

/// What each error column adds to the mean of all rows.
[[nodiscard]] std::vector<double> average_errors(const ShapeRows& rows);

/// Puts the readings of `parts` (ids) into rows: repeats of one place under one setting become one row (rounded_mean where the scale is
/// coarser than the hand); what several parts share becomes error columns, as few as carry it to 0.02 µm; the rest is noise of the part.
/// `named`: sources that keep a column of their own, in this order.
[[nodiscard]] ShapeRows shape_rows(const std::vector<std::string>& parts, const SizeSet& set, const ShapeOrigin& origin,
                                   const std::vector<std::size_t>& named);

}  // namespace fettle
