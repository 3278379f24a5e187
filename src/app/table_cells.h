#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/assertion.h"
#include "entry/data_table.h"

namespace fettle {

/// A mean of readings, exact otherwise, is cut at 0.1 nm; an estimate and its doubt at 10 nm; a temperature at a thousandth of a degree.
inline constexpr int kExactDecimals = 7;
inline constexpr int kEstimateDecimals = 5;
inline constexpr int kTemperatureDecimals = 3;

/// One row of a table, filled by the names of its columns.
class TableCells {
 public:
  explicit TableCells(const std::vector<DataColumn>& columns) : columns_(columns), cells_(columns.size()) {}

  void put(std::string_view column, std::optional<std::string> text) {
    const auto found = std::find_if(columns_.begin(), columns_.end(), [&](const auto& each) { return each.name == column; });
    FETTLE_ASSERT(found != columns_.end(), std::string(column));
    cells_[static_cast<std::size_t>(found - columns_.begin())] = std::move(text);
  }
  /// An empty text says nothing.
  void put_if(std::string_view column, const std::string& text) {
    if (!text.empty()) put(column, text);
  }
  [[nodiscard]] std::vector<std::optional<std::string>> take() && { return std::move(cells_); }

 private:
  const std::vector<DataColumn>& columns_;
  std::vector<std::optional<std::string>> cells_;
};

}  // namespace fettle
