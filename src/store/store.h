#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/assertion.h"
#include "base/result.h"
#include "store/accepted.h"
#include "store/desk_rows.h"
#include "store/index_rows.h"

namespace fettle {

/// The store failed while it worked (disk full, disk broken, file taken by another program): `problem` says what and what to do. Nothing of
/// the call that threw was acknowledged; what was acknowledged before is kept.
class StoreError : public WorldError {
 public:
  explicit StoreError(Problem what) : WorldError(what.code), problem(std::move(what)) {}
  Problem problem;
};

/// A photo or a paper, kept once by the hash of its bytes.
struct StoredFile {
  std::string hash;       ///< file_digest of bytes
  std::string type;       ///< image/jpeg, image/png, application/pdf
  std::string bytes;
  std::string thumbnail;  ///< JPEG; empty where there is none
  bool operator==(const StoredFile&) const = default;
};
struct StoredFileRow {
  std::string hash;
  std::string type;
  std::int64_t size;  ///< bytes
  bool operator==(const StoredFileRow&) const = default;
};

/// What one version of the program made of a job, for comparing with the next version.
struct StoredJudgement {
  std::string job;
  std::string program;   ///< version of the program
  std::int64_t events;   ///< position up to which it was judged ...
  std::string log_hash;  ///< ... and the hash of that event
  std::string verdicts;  ///< text that only its maker reads
  std::string hash;      ///< judgement_hash of the five above, by the store
  bool operator==(const StoredJudgement&) const = default;
};

[[nodiscard]] std::string judgement_hash(const StoredJudgement& judgement);

/// One fault that a look at the whole store found.
struct StoreFault {
  std::string where;  ///< a job id, the hash of a file, or the name of a table or page
  Problem problem;    ///< store.chain_broken, store.file_changed, store.judgement_changed, store.desk_changed, store.database_damaged ...
};

/// Events in the order they were accepted, files, and rows for finding. Many threads may call it at once. One writer works at a time: calls
/// that wait for it are written together, with one wait for the disk. When a call that writes has returned, its data outlive a power cut.
/// Every call may throw StoreError.
class Store {
 public:
  Store() = default;
  Store(const Store&) = delete;
  Store& operator=(const Store&) = delete;
  virtual ~Store() = default;

  /// All or none, in this order; may be of several jobs. An id that is there with the same bytes is accepted once: its old acceptance is
  /// given. Problems: store.other_bytes (an id that is there with other bytes, or twice here with different bytes).
  [[nodiscard]] virtual Result<std::vector<Accepted>> accept(const std::vector<Envelope>& envelopes) = 0;
  /// The same of one job, and only while its log still ends at `position` (0: there is none): who read it up to there and judged by it what
  /// may follow must not have been overtaken. Problems also: store.moved_on. Needs: all of one job, at least one.
  [[nodiscard]] virtual Result<std::vector<Accepted>> accept_after(const std::vector<Envelope>& envelopes, std::int64_t position) = 0;
  /// Takes events over as another store accepted them: position, time and hash stay. Those that are there must be the same; the rest must
  /// go on where the chain ends. All or none. Gives how many were new. Problems: store.chain_broken, store.went_apart (from which
  /// position on the two differ).
  [[nodiscard]] virtual Result<std::int64_t> take_over(const std::vector<AcceptedEvent>& events) = 0;
  /// Of one job, by position, those after `after`. A row that is damaged is left out (see faults).
  [[nodiscard]] virtual std::vector<AcceptedEvent> events(const std::string& job, std::int64_t after) = 0;
  [[nodiscard]] virtual std::optional<Accepted> last(const std::string& job) = 0;
  /// Ids of all jobs, sorted.
  [[nodiscard]] virtual std::vector<std::string> jobs() = 0;

  /// Kept once: the same hash again changes nothing.
  virtual void keep_file(const StoredFile& file) = 0;
  [[nodiscard]] virtual std::optional<StoredFile> file(const std::string& hash) = 0;
  [[nodiscard]] virtual std::vector<StoredFileRow> files() = 0;

  virtual void keep_row(const JobRow& row) = 0;  ///< in place of the job's old one
  virtual void drop_rows() = 0;                  ///< all of them
  [[nodiscard]] virtual std::optional<JobRow> row(const std::string& job) = 0;
  [[nodiscard]] virtual FoundJobs find(const FindQuery& query) = 0;

  /// In place of the same job's by the same program. `hash` is made here.
  virtual void keep_judgement(const StoredJudgement& judgement) = 0;
  /// Of one job, in the order they were kept.
  [[nodiscard]] virtual std::vector<StoredJudgement> judgements(const std::string& job) = 0;

  /// One that is there is left as it is.
  virtual void keep_device(const StoredDevice& device) = 0;
  /// For ever. False: there is no such device.
  [[nodiscard]] virtual bool revoke_device(const std::string& id) = 0;
  virtual void device_seen(const std::string& id, const std::string& at) = 0;
  /// In the order they were paired. One that is not as it was kept is left out.
  [[nodiscard]] virtual std::vector<StoredDevice> devices() = 0;

  /// Kept until it is dropped. Gives its number.
  [[nodiscard]] virtual std::int64_t keep_gauge_line(const std::string& port, const std::string& bytes, const std::string& received_at) = 0;
  /// False: there is no such line.
  [[nodiscard]] virtual bool drop_gauge_line(std::int64_t number) = 0;
  /// The oldest first. One that is not as it was kept is left out.
  [[nodiscard]] virtual std::vector<StoredGaugeLine> gauge_lines() = 0;

  /// Looks at everything: the database's own structure, every chain, every file and judgement against its hash. Empty: all is whole.
  [[nodiscard]] virtual std::vector<StoreFault> faults() = 0;
  /// A copy of the store at one moment into a new file, while others go on writing. Problems: store.file_exists, store.cannot_write.
  [[nodiscard]] virtual Problems back_up(const std::string& path) = 0;
};

}  // namespace fettle
