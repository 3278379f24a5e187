#include "verdict/finding.h"

namespace fettle {

Message seen_message(const Finding& finding) {
  return {finding.where.empty() ? "reason.seen" : "reason.seen_at", {verbatim("what", finding.what), verbatim("where", finding.where)}};
}

std::string_view weight_name(FindingWeight weight) {
  switch (weight) {
    case FindingWeight::note: return "note";
    case FindingWeight::needs_test: return "needs-test";
    case FindingWeight::condemns: return "condemns";
  }
  return "";
}

std::string_view sort_name(FindingSort sort) { return word_of(kFindingSorts, sort).value_or("other"); }

std::string_view test_name(FindingTest test) { return word_of(kFindingTests, test).value_or("other"); }

}  // namespace fettle
