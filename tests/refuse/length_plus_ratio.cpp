#include "control.h"

namespace fettle {
const auto kWrong = kBore + Ratio(1);  // a length and a bare fraction
}  // namespace fettle
