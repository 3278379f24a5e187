#include "store_sqlite/faults.h"

#include <functional>

#include "store_sqlite/desk_rows.h"
#include "store_sqlite/event_rows.h"
#include "store_sqlite/failure.h"
#include "store_sqlite/file_rows.h"
#include "store_sqlite/job_rows.h"
#include "store_sqlite/judgement_rows.h"
#include "store_sqlite/schema.h"

namespace fettle::sqlite {
namespace {

/// "page 12" of a sentence that speaks of one, else the word after "index" or "in", else the database.
std::string place_in(const std::string& sentence) {
  for (const std::string_view word : {"page ", "index ", "in "}) {
    const auto at = sentence.rfind(word);
    if (at == std::string::npos) continue;
    const auto end = sentence.find_first_of(" :,", at + word.size());
    const std::string name = sentence.substr(at + word.size(), end == std::string::npos ? end : end - at - word.size());
    if (!name.empty()) return word == "page " ? "page " + name : name;
  }
  return "database";
}

class Look {
 public:
  explicit Look(Connection& reader) : reader_(&reader) {}

  std::vector<StoreFault> run() && {
    const std::int64_t version = version_of(*reader_);
    carefully("database", [&] { look_at_schema(version); });
    carefully("database", [&] { look_at_structure(); });
    carefully("event", [&] { look_at_chains(); });
    carefully("file", [&] { look_at_files(); });
    if (version < 2) return std::move(faults_);
    carefully("judgement", [&] { look_at_judgements(); });
    carefully("job_row", [&] { look_at_rows(); });
    if (version < 3) return std::move(faults_);
    carefully("device", [&] { look_at_desk("device", device_rows(*reader_)); });
    carefully("gauge_line", [&] { look_at_desk("gauge_line", gauge_line_rows(*reader_)); });
    return std::move(faults_);
  }

 private:
  void add(const std::string& where, Problem problem) { faults_.push_back({where, std::move(problem)}); }

  /// A look that meets a broken page is a fault too, and the other looks go on.
  void carefully(const std::string& where, const std::function<void()>& look) {
    try {
      look();
    } catch (const StoreError& error) {
      if (!is_damage(error)) throw;
      add(where, error.problem);
    }
  }

  void look_at_schema(std::int64_t version) {
    const std::string difference = schema_difference(*reader_, version);
    if (!difference.empty()) add("database", damaged(reader_->path(), difference).problem);
  }

  void look_at_structure() {
    Statement rows = reader_->statement("pragma integrity_check(100)");
    while (rows.step()) {
      const std::string said = rows.bytes(0);
      if (said != "ok") add(place_in(said), damaged(reader_->path(), said).problem);
    }
  }

  void look_at_chains() {
    Statement jobs = reader_->statement("select number, id from job order by number");
    while (jobs.step()) {
      const std::string job = jobs.bytes(1);
      const std::int64_t number = jobs.integer(0);
      carefully(job, [&] { look_at_chain(job, number); });
    }
    if (reader_->number("select count(*) from event where not exists (select 1 from job where number = place >> 32 and id = job)") > 0) {
      add("event", damaged(reader_->path(), "events of no job").problem);
    }
  }

  void look_at_chain(const std::string& job, std::int64_t number) {
    const std::vector<AcceptedEvent> events = unverified_events(*reader_, number);
    for (const ChainBreak& each : chain_breaks(events)) {
      add(job, {"store.chain_broken", {reader_->path(), {}, {}}, {verbatim("job", job), count("position", each.position)}});
    }
  }

  void look_at_files() {
    std::vector<std::int64_t> numbers;
    Statement rows = reader_->statement("select number from file not indexed order by number");
    while (rows.step()) numbers.push_back(rows.integer(0));
    for (const std::int64_t number : numbers) {
      carefully("file", [&] {
        const auto found = unverified_file(*reader_, number);
        if (found && is_as_kept(found->file, found->seal)) return;
        const std::string hash = found ? found->file.hash : std::to_string(number);
        add(hash, {"store.file_changed", {reader_->path(), {}, {}}, {verbatim("hash", hash)}});
      });
    }
  }

  void look_at_judgements() {
    for (const StoredJudgement& each : unverified_judgements(*reader_)) {
      if (each.hash == judgement_hash(each)) continue;
      add(each.job, {"store.judgement_changed", {reader_->path(), {}, {}}, {verbatim("job", each.job), verbatim("program", each.program)}});
    }
  }

  template <class Rows>
  void look_at_desk(const char* table, const Rows& rows) {
    for (const auto& each : rows) {
      if (!each.as_kept) add(table, {"store.desk_changed", {reader_->path(), {}, {}}, {verbatim("table", table)}});
    }
  }

  void look_at_rows() {
    std::int64_t asked = 0;
    std::int64_t people = 0;
    std::int64_t parts = 0;
    Statement jobs = reader_->statement("select job from job_row not indexed order by job");
    while (jobs.step()) {
      const auto read = read_job_row(*reader_, jobs.bytes(0));
      if (!read || !read->as_kept || !is_asked_for(read->row)) add_changed_row(jobs.bytes(0));
      if (!read) continue;
      asked += static_cast<std::int64_t>(asked_parts(read->row).size());
      people += static_cast<std::int64_t>(read->row.people.size());
      parts += static_cast<std::int64_t>(read->row.parts.size());
    }
    if (asked != reader_->number("select count(*) from job_with")) add_changed_row("job_with");
    if (people != reader_->number("select count(*) from job_person not indexed")) add_changed_row("job_person");
    if (parts != reader_->number("select count(*) from job_part")) add_changed_row("job_part");
  }

  void add_changed_row(const std::string& where) {
    add(where, {"store.row_changed", {reader_->path(), {}, {}}, {verbatim("job", where)}});
  }

  bool is_asked_for(const JobRow& row) {
    for (const AskedPart& each : asked_parts(row)) {
      Statement asked = reader_->statement("select 1 from job_with where named = ? and state = ? and job = ?");
      if (!asked.text(each.named).text(each.state).text(row.job).step()) return false;
    }
    return true;
  }

  Connection* reader_;
  std::vector<StoreFault> faults_;
};

}  // namespace

std::vector<StoreFault> faults_of(Connection& reader) { return Look(reader).run(); }

}  // namespace fettle::sqlite
