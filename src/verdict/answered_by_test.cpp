#include "verdict/answered_by_test.h"

namespace fettle {

bool answered_by_test(const Finding& asked, const std::vector<const Finding*>& all) {
  bool later = false;
  for (const Finding* each : all) {
    if (later && each->part == asked.part && each->outcome && (!asked.sort || !each->sort || each->sort == asked.sort)) return true;
    later = later || each == &asked;
  }
  return false;
}

}  // namespace fettle
