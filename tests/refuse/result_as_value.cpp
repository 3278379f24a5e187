#include "control.h"

namespace fettle {
const Length kWrong = measured();  // it may be a refusal
}  // namespace fettle
