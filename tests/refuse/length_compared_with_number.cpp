#include "control.h"

namespace fettle {
const bool kWrong = kBore < 84;  // 84 of what
}  // namespace fettle
