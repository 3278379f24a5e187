#pragma once

#include <iosfwd>
#include <string>
#include <vector>

#include "base/clock.h"
#include "store/store.h"

namespace fettle {

/// So that a failing comparison says which events differ.
void PrintTo(const AcceptedEvent& event, std::ostream* out);

/// Shows what it was last set to.
class SetClock final : public Clock {
 public:
  std::string time = "2031-05-04T08:12:00.000000Z";
  std::string now() override { return time; }
};

/// 32 hexadecimal digits made of a number.
[[nodiscard]] std::string id_of(std::int64_t number);
/// Events of `job` with the ids of numbers `first` to `last`, of lengths and bytes as logs have them.
[[nodiscard]] std::vector<Envelope> some_events(const std::string& job, std::int64_t first, std::int64_t last);
[[nodiscard]] Envelope some_event(const std::string& job, std::int64_t number);

/// What an event was acknowledged with.
struct Acknowledged {
  Envelope envelope;
  Accepted accepted;
};

/// What is wrong with a store that acknowledged these: one that is not there, is there twice or in another place, other bytes, a chain that
/// does not verify, a fault that the store itself finds. Empty: nothing.
[[nodiscard]] std::vector<std::string> broken_promises(Store& store, const std::vector<Acknowledged>& acknowledged);

/// A row with parts, kinds, states, people and days that depend on the number alone.
[[nodiscard]] JobRow some_row(std::int64_t number);
[[nodiscard]] StoredFile some_file(std::int64_t number, std::size_t size);
[[nodiscard]] StoredJudgement some_judgement(const std::string& job, const std::string& program);

}  // namespace fettle
