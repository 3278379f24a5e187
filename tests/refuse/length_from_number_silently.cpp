#include "control.h"

namespace fettle {
const Length kWrong = 84;  // millimetres? inches?
}  // namespace fettle
