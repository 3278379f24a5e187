#include "control.h"

namespace fettle {
const Length kWrong(84.0548);  // millimetres? inches?
}  // namespace fettle
