#include "control.h"

namespace fettle {
void wrong() { measured(); }  // a refusal nobody looks at
}  // namespace fettle
