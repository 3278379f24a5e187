#include "control.h"

namespace fettle {
const Ratio kWrong = 57;  // a fraction is made on purpose
}  // namespace fettle
