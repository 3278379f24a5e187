#include "job/steps_seen.h"

#include <algorithm>

namespace fettle {

void stand_at(std::vector<Kept<Part>>& parts, const StepSeen& seen) {
  for (auto& part : parts) {
    if (std::find(seen.parts.begin(), seen.parts.end(), part.value.id) != seen.parts.end()) part.value.step = seen.step;
  }
}

}  // namespace fettle
