#pragma once

#include <map>
#include <mutex>

#include "base/clock.h"
#include "store/store.h"

namespace fettle {

/// A store that lives as long as the program: what a store has to do, said in the plainest way. For tests; nothing outlives anything.
class MemoryStore : public Store {
 public:
  explicit MemoryStore(Clock& clock) : clock_(clock) {}

  [[nodiscard]] Result<std::vector<Accepted>> accept(const std::vector<Envelope>& envelopes) override;
  [[nodiscard]] Result<std::vector<Accepted>> accept_after(const std::vector<Envelope>& envelopes, std::int64_t position) override;
  [[nodiscard]] Result<std::int64_t> take_over(const std::vector<AcceptedEvent>& events) override;
  [[nodiscard]] std::vector<AcceptedEvent> events(const std::string& job, std::int64_t after) override;
  [[nodiscard]] std::optional<Accepted> last(const std::string& job) override;
  [[nodiscard]] std::vector<std::string> jobs() override;
  void keep_file(const StoredFile& file) override;
  [[nodiscard]] std::optional<StoredFile> file(const std::string& hash) override;
  [[nodiscard]] std::vector<StoredFileRow> files() override;
  void keep_row(const JobRow& row) override;
  void drop_rows() override;
  [[nodiscard]] std::optional<JobRow> row(const std::string& job) override;
  [[nodiscard]] FoundJobs find(const FindQuery& query) override;
  void keep_judgement(const StoredJudgement& judgement) override;
  [[nodiscard]] std::vector<StoredJudgement> judgements(const std::string& job) override;
  void keep_device(const StoredDevice& device) override;
  [[nodiscard]] bool revoke_device(const std::string& id) override;
  void device_seen(const std::string& id, const std::string& at) override;
  [[nodiscard]] std::vector<StoredDevice> devices() override;
  [[nodiscard]] std::int64_t keep_gauge_line(const std::string& port, const std::string& bytes, const std::string& received_at) override;
  [[nodiscard]] bool drop_gauge_line(std::int64_t number) override;
  [[nodiscard]] std::vector<StoredGaugeLine> gauge_lines() override;
  [[nodiscard]] std::vector<StoreFault> faults() override;
  /// Always store.cannot_write: there is nothing to copy to.
  [[nodiscard]] Problems back_up(const std::string& path) override;

 private:
  [[nodiscard]] Result<std::vector<Accepted>> accept_held(const std::vector<Envelope>& envelopes);
  Clock& clock_;
  std::mutex lock_;
  std::map<std::string, std::vector<AcceptedEvent>> logs_;
  std::map<std::string, StoredFile> files_;
  std::map<std::string, JobRow> rows_;
  std::map<std::string, std::vector<StoredJudgement>> judgements_;
  std::vector<StoredDevice> devices_;
  std::vector<StoredGaugeLine> gauge_lines_;
  std::int64_t last_line_ = 0;
};

}  // namespace fettle
