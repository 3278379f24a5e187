#include "control.h"

namespace fettle {
const Quantity kWrong{Ratio(57), 0};  // a unit is named, not numbered
}  // namespace fettle
