#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

#include "app/recorded_job.h"

namespace fettle {

/// A job in memory that takes events on, one after the other, before they are accepted all together.
class JobAtWork {
 public:
  /// Works on `recorded` itself: if the store refuses what was taken on, it has to be read again.
  explicit JobAtWork(RecordedJob& recorded);

  [[nodiscard]] const Job& job() const { return recorded_.job; }
  /// With its events, those that were taken on among them; accepted are fewer.
  [[nodiscard]] const RecordedJob& recorded() const { return recorded_; }
  /// Of an event that the log holds, or that was taken on: its place, from 1.
  [[nodiscard]] std::optional<std::int64_t> position_of(const std::string& event) const;
  /// The event itself; null: there is none. Good until the next one is taken on.
  [[nodiscard]] const EventEnvelope* event(const std::string& id) const;
  /// Where the log ends, with what was taken on.
  [[nodiscard]] std::int64_t end() const { return static_cast<std::int64_t>(recorded_.events.size()); }
  /// The job takes it on, or says why it cannot and stays as it was. Problems: those of fold, record.rule_broken. Needs an id that is new.
  [[nodiscard]] Problems take(EventEnvelope event);
  /// Those that were taken on and are not accepted yet.
  [[nodiscard]] std::vector<Envelope> fresh() const;

 private:
  RecordedJob& recorded_;
};

/// What keeps `all` from being a job: that they do not fold, or break a rule that was kept before. Else the job is theirs.
[[nodiscard]] Result<Job> folded_after(const Job& before, const std::vector<EventEnvelope>& all);

}  // namespace fettle
