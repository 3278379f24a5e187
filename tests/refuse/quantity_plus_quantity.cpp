#include "control.h"

namespace fettle {
const auto kWrong = kTravel + kTravel;  // the units may differ; exact_length first
}  // namespace fettle
