#include "store_sqlite/sqlite_store.h"

#include "store_sqlite/backup.h"
#include "store_sqlite/connection.h"
#include "store_sqlite/desk_rows.h"
#include "store_sqlite/event_rows.h"
#include "store_sqlite/failure.h"
#include "store_sqlite/faults.h"
#include "store_sqlite/file_rows.h"
#include "store_sqlite/find.h"
#include "store_sqlite/group_commit.h"
#include "store_sqlite/job_rows.h"
#include "store_sqlite/judgement_rows.h"
#include "store_sqlite/opening.h"
#include "store_sqlite/page_salvage.h"
#include "store_sqlite/readers.h"

namespace fettle {
namespace sqlite {
namespace {

class SqliteStore final : public Store {
 public:
  SqliteStore(std::unique_ptr<Connection> writer, Clock& acceptance_clock, std::chrono::milliseconds busy_wait)
      : writer_(std::move(writer)), clock_(&acceptance_clock), commit_(*writer_), readers_(writer_->path(), busy_wait) {}

  Result<std::vector<Accepted>> accept(const std::vector<Envelope>& envelopes) override {
    return write_or_refuse<std::vector<Accepted>>([&](Connection& writer) { return accept_events(writer, *clock_, envelopes); });
  }
  Result<std::vector<Accepted>> accept_after(const std::vector<Envelope>& envelopes, std::int64_t position) override {
    return write_or_refuse<std::vector<Accepted>>([&](Connection& writer) { return accept_events_after(writer, *clock_, envelopes, position); });
  }

  Result<std::int64_t> take_over(const std::vector<AcceptedEvent>& events) override {
    return write_or_refuse<std::int64_t>([&](Connection& writer) { return take_over_events(writer, events); });
  }

  std::vector<AcceptedEvent> events(const std::string& job, std::int64_t after) override {
    ReadEvents read = readers_.run([&](Connection& reader) { return read_events(reader, job, after); });
    if (read.whole) return std::move(read.events);
    return salvage_job(writer_->path(), job, after);
  }

  std::optional<Accepted> last(const std::string& job) override {
    return readers_.run([&](Connection& reader) { return last_event(reader, job); });
  }

  std::vector<std::string> jobs() override {
    return readers_.run([](Connection& reader) { return job_ids(reader); });
  }

  void keep_file(const StoredFile& file) override {
    write([&](Connection& writer) { keep_file_row(writer, file); });
  }

  std::optional<StoredFile> file(const std::string& hash) override {
    return readers_.run([&](Connection& reader) { return file_row(reader, hash); });
  }

  std::vector<StoredFileRow> files() override {
    return readers_.run([](Connection& reader) { return file_list(reader); });
  }

  void keep_row(const JobRow& row) override {
    write([&](Connection& writer) { keep_job_row(writer, row); });
  }

  void drop_rows() override { write(drop_job_rows); }

  std::optional<JobRow> row(const std::string& job) override {
    auto read = readers_.run([&](Connection& reader) { return read_job_row(reader, job); });
    if (!read || !read->as_kept) return std::nullopt;
    return std::move(read->row);
  }

  FoundJobs find(const FindQuery& query) override {
    return readers_.run([&](Connection& reader) { return find_jobs(reader, query); });
  }

  void keep_judgement(const StoredJudgement& judgement) override {
    write([&](Connection& writer) { keep_judgement_row(writer, judgement); });
  }

  std::vector<StoredJudgement> judgements(const std::string& job) override {
    return readers_.run([&](Connection& reader) { return judgement_rows(reader, job); });
  }

  void keep_device(const StoredDevice& device) override {
    write([&](Connection& writer) { keep_device_row(writer, device); });
  }
  bool revoke_device(const std::string& id) override {
    bool found = false;
    write([&](Connection& writer) { found = revoke_device_row(writer, id); });
    return found;
  }
  void device_seen(const std::string& id, const std::string& at) override {
    write([&](Connection& writer) { device_seen_row(writer, id, at); });
  }
  std::vector<StoredDevice> devices() override { return as_kept(readers_.run(device_rows)); }

  std::int64_t keep_gauge_line(const std::string& port, const std::string& bytes, const std::string& received_at) override {
    std::int64_t number = 0;
    write([&](Connection& writer) { number = keep_gauge_line_row(writer, {0, port, bytes, received_at}); });
    return number;
  }
  bool drop_gauge_line(std::int64_t number) override {
    bool found = false;
    write([&](Connection& writer) { found = drop_gauge_line_row(writer, number); });
    return found;
  }
  std::vector<StoredGaugeLine> gauge_lines() override { return as_kept(readers_.run(gauge_line_rows)); }

  std::vector<StoreFault> faults() override { return readers_.run(faults_of); }

  Problems back_up(const std::string& path) override {
    return readers_.run([&](Connection& reader) { return back_up_database(reader, path); });
  }

 private:
  template <class Value, class Work>
  Result<Value> write_or_refuse(const Work& work) {
    std::optional<Result<Value>> out;
    commit_.run([&](Connection& writer) {
      out.emplace(work(writer));
      return out->ok();
    });
    return *std::move(out);
  }

  template <class Work>
  void write(const Work& work) {
    commit_.run([&](Connection& writer) {
      work(writer);
      return true;
    });
  }

  template <class Row>
  static std::vector<Row> as_kept(const std::vector<DeskRow<Row>>& rows) {
    std::vector<Row> out;
    for (const DeskRow<Row>& each : rows) {
      if (each.as_kept) out.push_back(each.row);
    }
    return out;
  }

  std::unique_ptr<Connection> writer_;
  Clock* clock_;
  GroupCommit commit_;
  Readers readers_;
};

}  // namespace
}  // namespace sqlite

SqliteOptions usual_sqlite_options() { return {true, std::chrono::seconds(5), std::nullopt}; }

Result<std::unique_ptr<Store>> open_sqlite_store(const std::string& path, Clock& acceptance_clock, const SqliteOptions& options) {
  try {
    auto writer = sqlite::open_writer(path, options);
    return std::unique_ptr<Store>(std::make_unique<sqlite::SqliteStore>(std::move(writer), acceptance_clock, options.busy_wait));
  } catch (const StoreError& error) {
    return error.problem;
  }
}

Problems check_sqlite_backup(const std::string& path) {
  try {
    return sqlite::problems_of_file(path);
  } catch (const StoreError& error) {
    return {error.problem};
  }
}

}  // namespace fettle
