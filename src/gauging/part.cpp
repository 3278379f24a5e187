#include "gauging/part.h"

namespace fettle {

std::string_view condition_name(Condition condition) {
  switch (condition) {
    case Condition::worn: return "worn";
    case Condition::machined: return "machined";
    case Condition::fresh: return "new";
    case Condition::sleeved: return "sleeved";
  }
  return "";
}

std::string_view step_kind_name(StepKind kind) {
  switch (kind) {
    case StepKind::standard: return "standard";
    case StepKind::offset: return "offset";
    case StepKind::unknown: return "unknown";
  }
  return "";
}

}  // namespace fettle
