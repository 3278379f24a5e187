#include "store/accepted.h"

#include "base/digest.h"

namespace fettle {

std::string chain_hash(const Envelope& envelope, std::int64_t position, const std::string& accepted_at, const std::string& previous) {
  return long_digest({envelope.job, std::to_string(position), accepted_at, previous, envelope.id, envelope.line});
}

std::vector<ChainBreak> chain_breaks(const std::vector<AcceptedEvent>& events) {
  std::vector<ChainBreak> out;
  std::int64_t next = 1;
  std::string previous = kNoHash;
  for (const AcceptedEvent& each : events) {
    const Accepted& accepted = each.accepted;
    if (accepted.position != next) {
      out.push_back({next, "missing"});
    } else if (accepted.previous != previous) {
      out.push_back({accepted.position, "previous"});
    }
    if (accepted.hash != chain_hash(each.envelope, accepted.position, accepted.accepted_at, accepted.previous)) {
      out.push_back({accepted.position, "hash"});
    }
    next = accepted.position + 1;
    previous = accepted.hash;
  }
  return out;
}

}  // namespace fettle
