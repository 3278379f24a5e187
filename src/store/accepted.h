#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace fettle {

/// An event as it is handed in. The store never looks into its bytes.
struct Envelope {
  std::string job;   ///< id of the job
  std::string id;    ///< of the event: 32 hexadecimal digits, unique in its job
  std::string line;  ///< the event's bytes, one line of JSON without the line's end
  bool operator==(const Envelope&) const = default;
};

/// What the store adds when it accepts an event.
struct Accepted {
  std::int64_t position;    ///< in its job: 1, 2, 3 ... without a gap
  std::string accepted_at;  ///< UTC, as Clock has it
  std::string previous;     ///< hash of the event before it in its job; of the first: kNoHash
  std::string hash;         ///< chain_hash of all of this
  bool operator==(const Accepted&) const = default;
};

struct AcceptedEvent {
  Envelope envelope;
  Accepted accepted;
  bool operator==(const AcceptedEvent&) const = default;
};

inline const std::string kNoHash = std::string(64, '0');

/// 256-bit BLAKE2b (libsodium's generic hash) of job, position, accepted_at, previous, id and line, each preceded by its length; 64
/// hexadecimal digits. Whoever changes, drops or moves one event of a job changes every hash after it.
[[nodiscard]] std::string chain_hash(const Envelope& envelope, std::int64_t position, const std::string& accepted_at, const std::string& previous);

/// Where a job's chain first breaks: a position that is missing, twice or out of order, a `previous` that is not the hash before it, or a
/// hash that the bytes do not give.
struct ChainBreak {
  std::int64_t position;  ///< of the first event that does not fit; one past the last known good one where an event is missing
  std::string what;       ///< "missing", "previous", "hash"
  bool operator==(const ChainBreak&) const = default;
};
/// `events` of one job as the store gives them, from the first on.
[[nodiscard]] std::vector<ChainBreak> chain_breaks(const std::vector<AcceptedEvent>& events);

}  // namespace fettle
