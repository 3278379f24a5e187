#include "cli/record_command.h"

#include <algorithm>
#include <filesystem>

#include "app/attach_file.h"
#include "app/bundle.h"
#include "app/correct.h"
#include "app/enter_sheet.h"
#include "app/index_job.h"
#include "app/judge_all.h"
#include "app/open_folder.h"
#include "app/part_history.h"
#include "app/proof_sheets.h"
#include "app/restore_record.h"
#include "app/salvage_record.h"
#include "app/sheet_change.h"
#include "app/take_in.h"
#include "app/verify_record.h"
#include "app/whole_file.h"
#include "base/day.h"
#include "cli/exit_code.h"
#include "cli/limits_command.h"
#include "cli/record_text.h"
#include "cli/sheet_change_text.h"
#include "wire/json_text.h"

namespace fettle {
namespace {

std::optional<std::string> given(const std::string& text) { return text.empty() ? std::nullopt : std::optional(text); }

/// Nothing that was typed is wrong: the disk, or whoever holds the file.
bool is_of_the_world(const std::string& code) {
  return code == "app.cannot_write" || code == "store.cannot_write" || code == "store.cannot_read" || code == "store.disk_full" || code == "store.taken" ||
         code == "store.database_damaged";
}

class RecordCommands {
 public:
  RecordCommands(const RecordAsked& asked, Language language, bool terminal, const World& world)
      : asked_(asked), look_{language, terminal, false}, world_(world) {}

  RunResult run() {
    if (asked_.command == "restore") return restore();
    if (asked_.command == "salvage") return salvage();
    // What makes a record looks at its input first: a refused one leaves no empty record behind.
    if (asked_.command == "open") return open();
    if (asked_.command == "take-over") return take_over();
    if (Problems problems = open_store(false); !problems.empty()) return refused(problems);
    if (asked_.command == "list" || asked_.command == "find") return find();
    if (asked_.command == "history") return history();
    if (asked_.command == "correct") return correct();
    if (asked_.command == "withdraw") return withdraw_event();
    if (asked_.command == "enter-sheet") return enter();
    if (asked_.command == "verify") return verify();
    if (asked_.command == "judge-all") return judge_every_job();
    if (asked_.command == "attach") return attach();
    if (asked_.command == "file") return file();
    if (asked_.command == "bundle") return bundle();
    FETTLE_ASSERT(asked_.command == "back-up", asked_.command);
    return back_up();
  }

 private:
  Problems open_store(bool create) {
    Result<std::unique_ptr<Store>> store = world_.records.open(asked_.record, world_.clock, create);
    if (!store.ok()) return store.problems();
    store_ = std::move(store).value();
    return {};
  }

  [[nodiscard]] RunResult refused(const Problems& problems) const {
    const bool disk = std::any_of(problems.begin(), problems.end(), [](const Problem& each) { return is_of_the_world(each.code); });
    if (asked_.json) return {disk ? kWorldFailed : kInput, problems_json(problems), {}};
    RunResult out{disk ? kWorldFailed : kInput, {}, {}};
    for (const Problem& each : problems) out.error += sentence(each, look_.language) + "\n";
    return out;
  }

  [[nodiscard]] RunResult said(const Message& message) const { return {kFine, sentence(message, look_.language) + "\n", {}}; }
  [[nodiscard]] Doing doing() const { return {asked_.who, world_.clock.now()}; }

  RunResult open() {
    const Result<FolderTexts> texts = read_folder(asked_.folder);
    if (!texts.ok()) return refused(texts.problems());
    if (const Problems problems = import_folder(texts.value()).problems; !problems.empty()) return refused(problems);
    if (const Problems problems = open_store(true); !problems.empty()) return refused(problems);
    const Result<TakenIn> taken = while_overtaken([&] { return take_in(*store_, texts.value(), given(asked_.corrected), doing()); });
    if (!taken.ok()) return refused(taken.problems());
    const TakenIn& counts = taken.value();
    RunResult out = said({"record.taken_in", {verbatim("job", counts.job), count("fresh", counts.fresh), count("there", counts.there),
                                              count("withdrawn", counts.withdrawn)}});
    if (counts.aside > 0) out.out += sentence({"record.aside", {count("aside", counts.aside)}}, look_.language) + "\n";
    return indexed(counts.job, std::move(out));
  }

  /// The row for finding follows every change; what cannot be judged is said, and the change stands.
  RunResult indexed(const std::string& job, RunResult out) {
    const Result<RecordedJob> recorded = open_recorded(*store_, job);
    if (!recorded.ok()) return refused(recorded.problems());
    for (const Problem& each : index_job(*store_, recorded.value()).problems) out.error += sentence(each, look_.language) + "\n";
    return out;
  }

  RunResult find() {
    Problems problems;
    for (const std::string& day : {asked_.from, asked_.until}) {
      if (!day.empty() && utc_day(day) != day) problems.push_back(Problem{"cli.no_day", {}, {verbatim("text", day)}});
    }
    if (!problems.empty()) return refused(problems);
    const FindQuery query{given(asked_.engine), given(asked_.part), given(asked_.state), given(asked_.from), given(asked_.until), given(asked_.person),
                          asked_.skip, asked_.most};
    const FoundJobs found = store_->find(query);
    RunResult out{kFine, asked_.json ? found_jobs_json(found) : found_jobs_text(found, query, look_), {}};
    if (const std::int64_t unlisted = not_listed(); unlisted > 0) out.error = sentence({"record.not_listed", {count("jobs", unlisted)}}, look_.language) + "\n";
    return out;
  }

  /// A program that was stopped between taking a job in and listing it leaves it unlisted.
  [[nodiscard]] std::int64_t not_listed() const {
    const FoundJobs all = store_->find({std::nullopt, std::nullopt, std::nullopt, std::nullopt, std::nullopt, std::nullopt, 0, 1});
    return static_cast<std::int64_t>(store_->jobs().size()) - all.all;
  }

  RunResult history() {
    const auto rebuilds = part_history(*store_, asked_.job, asked_.part);
    if (!rebuilds.ok()) return refused(rebuilds.problems());
    return {kFine, asked_.json ? part_history_json(rebuilds.value()) : part_history_text(rebuilds.value(), look_), {}};
  }

  RunResult correct() {
    const Result<std::string> made = on_job<std::string>(
        [&](const RecordedJob& recorded) { return correct_reading(*store_, recorded, {asked_.event, asked_.why}, asked_.text, doing()); });
    if (!made.ok()) return refused(made.problems());
    return indexed(asked_.job, said({"record.corrected", {verbatim("event", made.value())}}));
  }

  RunResult enter() {
    Problems problems;
    const auto sheet = read_sheet(asked_.file, problems);
    if (!sheet) return refused(problems);
    const SheetEntered version{sheet_id(asked_.part, asked_.file), *sheet, asked_.why};
    std::string changes;
    const Result<std::string> made = on_job<std::string>([&](const RecordedJob& recorded) -> Result<std::string> {
      if (Problems wrong = problems_of_sheet(recorded.job, version); !wrong.empty()) return wrong;
      const Result<LimitsChanged> changed = sheet_change(recorded.job, version, {std::nullopt, usual_accuracy()});
      // What cannot be judged yet gets its limits all the same.
      changes = changed.ok() ? sheet_change_text(version.sheet, changed.value(), look_) : "";
      return enter_sheet(*store_, recorded, version, doing());
    });
    if (!made.ok()) return refused(made.problems());
    RunResult out = said({"record.sheet_entered", {verbatim("sheet", version.sheet), verbatim("event", made.value())}});
    out.out += changes + unused_rows_text(version.of, look_.language);
    return indexed(asked_.job, std::move(out));
  }

  RunResult withdraw_event() {
    const Result<std::string> made =
        on_job<std::string>([&](const RecordedJob& recorded) { return withdraw(*store_, recorded, {asked_.event, asked_.why}, doing()); });
    if (!made.ok()) return refused(made.problems());
    return indexed(asked_.job, said({"record.withdrawn", {verbatim("event", made.value())}}));
  }

  /// Reads the job and does something to it, again while somebody else was quicker.
  template <class Made, class Act>
  [[nodiscard]] Result<Made> on_job(const Act& act) {
    return while_overtaken([&]() -> Result<Made> {
      const Result<RecordedJob> recorded = open_recorded(*store_, asked_.job);
      if (!recorded.ok()) return recorded.problems();
      return act(recorded.value());
    });
  }

  RunResult verify() {
    const VerifiedRecord verified = verify_record(*store_, world_.progress);
    const bool whole = verified.faults.empty() && !verified.stopped;
    return {whole ? kFine : kNotAllWithin, asked_.json ? verified_record_json(verified) : verified_record_text(verified, look_.language), {}};
  }

  RunResult judge_every_job() {
    const JudgedAll judged = judge_all(*store_, {asked_.threads, asked_.again}, world_.progress);
    const bool same = judged.changed.empty() && judged.refused.empty() && !judged.stopped;
    return {same ? kFine : kNotAllWithin, asked_.json ? judged_all_json(judged) : judged_all_text(judged, look_.language), {}};
  }

  RunResult attach() {
    Problems problems;
    const auto bytes = read_whole_file(asked_.file, kMostFileBytes, problems);
    if (!bytes) return refused(problems);
    const std::string name = std::filesystem::path(asked_.file).filename().string();
    const Result<Attached> made = on_job<Attached>([&](const RecordedJob& recorded) {
      return attach_file(*store_, recorded, {*bytes, name, given(asked_.part), asked_.note}, doing());
    });
    if (!made.ok()) return refused(made.problems());
    const Attached& kept = made.value();
    RunResult out = said({"record.attached", {verbatim("name", name), verbatim("type", kept.type), count("size", kept.size), verbatim("event", kept.event),
                                              verbatim("hash", kept.hash)}});
    for (const Message& each : kept.notices) out.out += sentence(each, look_.language) + "\n";
    return indexed(asked_.job, std::move(out));
  }

  RunResult file() {
    const auto kept = store_->file(asked_.event);
    if (!kept) return refused({Problem{"record.no_such_file", {}, {verbatim("hash", asked_.event)}}});
    if (const Problems problems = write_whole_file(asked_.to, kept->bytes); !problems.empty()) return refused(problems);
    return said({"record.file_written", {verbatim("file", asked_.to)}});
  }

  RunResult bundle() {
    const Result<std::string> bytes = make_bundle(*store_, asked_.job);
    if (!bytes.ok()) return refused(bytes.problems());
    if (const Problems problems = write_whole_file(asked_.to, bytes.value()); !problems.empty()) return refused(problems);
    return said({"record.bundled", {verbatim("job", asked_.job), verbatim("file", asked_.to)}});
  }

  RunResult take_over() {
    Problems problems;
    const auto bytes = read_whole_file(asked_.file, kMostBundleBytes, problems);
    if (!bytes) return refused(problems);
    const Result<CheckedBundle> bundle = check_bundle(*bytes, {asked_.file, std::nullopt, std::nullopt});
    if (!bundle.ok()) return refused(bundle.problems());
    if (const Problems wrong = open_store(true); !wrong.empty()) return refused(wrong);
    const Result<TakenOver> taken = take_over_bundle(*store_, bundle.value());
    if (!taken.ok()) return refused(taken.problems());
    const TakenOver& counts = taken.value();
    return indexed(counts.job, said({"record.taken_over", {verbatim("job", counts.job), count("fresh", counts.fresh), count("there", counts.there),
                                                           count("files", counts.files)}}));
  }

  RunResult back_up() {
    if (const Problems problems = store_->back_up(asked_.to); !problems.empty()) return refused(problems);
    return said({"record.backed_up", {verbatim("file", asked_.to)}});
  }

  RunResult restore() {
    if (const Problems problems = restore_record(world_.records, asked_.folder, asked_.record); !problems.empty()) return refused(problems);
    return said({"record.restored", {verbatim("file", asked_.record)}});
  }

  RunResult salvage() {
    std::error_code error;
    if (std::filesystem::exists(asked_.record, error)) return refused({Problem{"app.file_exists", {}, {verbatim("file", asked_.record)}}});
    const SalvagedEvents salvaged = world_.records.salvage(asked_.folder);
    if (salvaged.events.empty()) return refused({Problem{"record.nothing_salvaged", {}, {verbatim("file", asked_.folder)}}});
    Result<std::unique_ptr<Store>> damaged = world_.records.open(asked_.folder, world_.clock, false);
    Result<std::unique_ptr<Store>> into = world_.records.open(asked_.record, world_.clock, true);
    if (!into.ok()) return refused(into.problems());
    const Result<SalvagedRecord> made = salvage_record(salvaged, damaged.ok() ? damaged.value().get() : nullptr, *into.value());
    if (!made.ok()) return refused(made.problems());
    const SalvagedRecord& kept = made.value();
    RunResult out = said({"record.salvaged", {count("jobs", kept.jobs), count("taken_over", kept.taken_over), count("anew", kept.accepted_anew),
                                              count("files", kept.files), count("lost", kept.files_missing), verbatim("file", asked_.record)}});
    for (const MissingEvents& each : kept.missing) {
      out.out += sentence({"record.lost", {verbatim("job", each.job), count("number", each.last - each.first + 1), count("first", each.first), count("last", each.last)}}, look_.language) + "\n";
    }
    out.exit_code = kept.missing.empty() && kept.files_missing == 0 ? kFine : kNotAllWithin;
    return out;
  }

  const RecordAsked& asked_;
  Look look_;
  const World& world_;
  std::unique_ptr<Store> store_;
};

}  // namespace

RunResult run_record(const RecordAsked& asked, Language language, bool terminal, const World& world) {
  return RecordCommands(asked, language, terminal, world).run();
}

}  // namespace fettle
