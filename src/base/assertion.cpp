#include "base/assertion.h"

namespace fettle {

void assertion_failed(const char* condition, const char* file, int line, const std::string& values) {
  throw InternalError(std::string("this must hold: ") + condition + " (" + file + ":" + std::to_string(line) + ") " +
                      values);
}

}  // namespace fettle
