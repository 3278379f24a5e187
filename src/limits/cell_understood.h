#pragma once

#include <vector>

#include "base/message.h"
#include "limits/sheet_cells.h"

namespace fettle {

/// What a row says in this column, for whoever typed it: "84.000 to 84.020 mm", "fitted once". Empty of columns that are words, and where nothing
/// is said. One message for each unit, or for each stage.
[[nodiscard]] std::vector<Message> cell_understood(const SheetRow& row, SheetColumn column);

}  // namespace fettle
