#include "app/verify_record.h"

#include <algorithm>

#include "app/index_job.h"
#include "job/invariants.h"

namespace fettle {
namespace {

class Verifying {
 public:
  explicit Verifying(Store& store) : store_(store) {}

  VerifiedRecord run(Progress& progress) {
    out_.faults = store_.faults();
    out_.files = static_cast<std::int64_t>(store_.files().size());
    const std::vector<std::string> jobs = store_.jobs();
    for (const std::string& job : jobs) {
      look_at(job);
      ++out_.jobs;
      if (progress.tell(out_.jobs, static_cast<long>(jobs.size()))) continue;
      out_.stopped = static_cast<std::size_t>(out_.jobs) < jobs.size();
      break;
    }
    return std::move(out_);
  }

 private:
  void add(const std::string& job, std::string code, std::vector<Argument> arguments) {
    arguments.insert(arguments.begin(), verbatim("job", job));
    out_.faults.push_back({job, {std::move(code), {}, std::move(arguments)}});
  }

  void look_at(const std::string& job) {
    const std::vector<AcceptedEvent> events = store_.events(job, 0);
    out_.events += static_cast<std::int64_t>(events.size());
    judgements(job, events);
    const Result<RecordedJob> recorded = recorded_from(events);
    if (!recorded.ok()) {
      // Where the chain breaks was told by the store.
      for (const Problem& each : recorded.problems()) {
        if (each.code != "store.chain_broken") out_.faults.push_back({job, each});
      }
      return;
    }
    for (const BrokenRule& each : broken_rules(recorded.value().job)) {
      add(job, "record.rule_broken", {word("rule", "record_rule." + std::string(each.rule)), verbatim("about", each.about)});
    }
    for (const Kept<FileAttached>& each : recorded.value().job.files) {
      if (!store_.file(each.value.hash)) add(job, "record.file_missing", {verbatim("name", each.value.name), verbatim("hash", each.value.hash)});
    }
    row(recorded.value());
  }

  void judgements(const std::string& job, const std::vector<AcceptedEvent>& events) {
    for (const StoredJudgement& each : store_.judgements(job)) {
      ++out_.judgements;
      const bool of_this_log = std::any_of(events.begin(), events.end(), [&](const AcceptedEvent& event) {
        return event.accepted.position == each.events && event.accepted.hash == each.log_hash;
      });
      if (!of_this_log) add(job, "record.judgement_of_nothing", {verbatim("program", each.program), count("position", each.events)});
    }
  }

  /// All but the words, which rest on a judgement.
  void row(const RecordedJob& recorded) {
    const auto kept = store_.row(recorded.job.id);
    if (!kept) {
      add(recorded.job.id, "record.row_missing", {});
      return;
    }
    JobRow wanted = row_of(recorded, nullptr);
    wanted.word = kept->word;
    for (std::size_t i = 0; i < wanted.parts.size() && i < kept->parts.size(); ++i) wanted.parts[i].state = kept->parts[i].state;
    if (*kept != wanted) add(recorded.job.id, "record.row_differs", {count("events", kept->events), count("position", wanted.events)});
  }

  Store& store_;
  VerifiedRecord out_{};
};

}  // namespace

VerifiedRecord verify_record(Store& store, Progress& progress) { return Verifying(store).run(progress); }

}  // namespace fettle
