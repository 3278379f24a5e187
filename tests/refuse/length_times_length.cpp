#include "control.h"

namespace fettle {
const auto kWrong = kBore * kStandard;  // an area is no length
}  // namespace fettle
