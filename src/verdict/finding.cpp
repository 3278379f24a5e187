#include "verdict/finding.h"

namespace fettle {

std::string_view weight_name(FindingWeight weight) {
  switch (weight) {
    case FindingWeight::note: return "note";
    case FindingWeight::needs_test: return "needs-test";
    case FindingWeight::condemns: return "condemns";
  }
  return "";
}

}  // namespace fettle
