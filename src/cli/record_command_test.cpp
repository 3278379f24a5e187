#include "cli/record_command.h"

#include <gtest/gtest.h>

#include "app/record_on_bench.h"
#include "store/memory_store.h"

namespace fettle {
namespace {

/// A store on a disk that is full.
class Fails final : public Store {
 public:
  [[noreturn]] static void full() { throw StoreError(Problem{"store.disk_full", {}, {verbatim("file", "yard.fettle")}}); }
  [[nodiscard]] Result<std::vector<Accepted>> accept(const std::vector<Envelope>&) override { full(); }
  [[nodiscard]] Result<std::vector<Accepted>> accept_after(const std::vector<Envelope>&, std::int64_t) override { full(); }
  [[nodiscard]] Result<std::int64_t> take_over(const std::vector<AcceptedEvent>&) override { full(); }
  [[nodiscard]] std::vector<AcceptedEvent> events(const std::string&, std::int64_t) override { return {}; }
  [[nodiscard]] std::optional<Accepted> last(const std::string&) override { return {}; }
  [[nodiscard]] std::vector<std::string> jobs() override { return {}; }
  void keep_file(const StoredFile&) override { full(); }
  [[nodiscard]] std::optional<StoredFile> file(const std::string&) override { return {}; }
  [[nodiscard]] std::vector<StoredFileRow> files() override { return {}; }
  void keep_row(const JobRow&) override { full(); }
  void drop_rows() override { full(); }
  [[nodiscard]] std::optional<JobRow> row(const std::string&) override { return {}; }
  [[nodiscard]] FoundJobs find(const FindQuery&) override { return {{}, 0}; }
  void keep_judgement(const StoredJudgement&) override { full(); }
  [[nodiscard]] std::vector<StoredJudgement> judgements(const std::string&) override { return {}; }
  void keep_device(const StoredDevice&) override { full(); }
  [[nodiscard]] bool revoke_device(const std::string&) override { full(); }
  void device_seen(const std::string&, const std::string&) override { full(); }
  [[nodiscard]] std::vector<StoredDevice> devices() override { return {}; }
  [[nodiscard]] std::int64_t keep_gauge_line(const std::string&, const std::string&, const std::string&) override { full(); }
  [[nodiscard]] bool drop_gauge_line(std::int64_t) override { full(); }
  [[nodiscard]] std::vector<StoredGaugeLine> gauge_lines() override { return {}; }
  [[nodiscard]] std::vector<StoreFault> faults() override { return {}; }
  [[nodiscard]] Problems back_up(const std::string&) override { return {}; }
};

/// A world with one record, made anew for each command.
struct Yard {
  GoesOn going;
  WoundClock clock;

  template <class Kind, class... Given>
  [[nodiscard]] RunResult run_on(const std::vector<std::string>& arguments, Given&... given) {
    const World world{going, clock, {[&](const std::string&, Clock&, bool) -> Result<std::unique_ptr<Store>> { return std::unique_ptr<Store>(new Kind(given...)); }, {}, {}}, {}, {}};
    return run(arguments, false, world);
  }
};

TEST(RecordCommand, ADayIsWrittenAsItIsAskedFor) {
  Yard yard;
  const RunResult result = yard.run_on<MemoryStore>({"find", "--record", "x", "--from", "yesterday"}, yard.clock);
  EXPECT_EQ(result.exit_code, 2);
  EXPECT_EQ(result.error, "\"yesterday\" is no day. Write year, month and day: 2031-05-04.\n");  // cli.no_day
}

TEST(RecordCommand, AFullDiskIsTheWorldsFaultAndSaidInTheLanguageAskedFor) {
  Yard yard;
  const RunResult result = yard.run_on<Fails>({"--language", "de", "open", kExample, "--record", "x"});
  EXPECT_EQ(result.exit_code, 3);
  EXPECT_NE(result.error.find("yard.fettle"), std::string::npos);
  EXPECT_EQ(result.error.find("store.disk_full"), std::string::npos) << "a sentence, no code";
  EXPECT_TRUE(result.out.empty()) << "nothing is acknowledged";
}

TEST(RecordCommand, NothingFoundIsNoFault) {
  Yard yard;
  const RunResult result = yard.run_on<MemoryStore>({"list", "--record", "x"}, yard.clock);
  EXPECT_EQ(result.exit_code, 0);
  EXPECT_EQ(result.out, "The record holds no job that fits.\n");
}

TEST(RecordCommand, AFileThatIsNotKeptIsNotWritten) {
  Yard yard;
  const RunResult result = yard.run_on<MemoryStore>({"file", std::string(64, 'a'), "--to", "/no/such/folder/x", "--record", "x"}, yard.clock);
  EXPECT_EQ(result.exit_code, 2);
  EXPECT_NE(result.error.find("keeps no file"), std::string::npos);  // record.no_such_file
}

TEST(RecordCommand, WhereNothingIsLeftNothingIsMade) {
  Yard yard;
  const World world{yard.going, yard.clock, {{}, {}, [](const std::string&) { return SalvagedEvents{}; }}, {}, {}};
  const RunResult result = run({"salvage", "old", "--record", "/no/such/folder/new"}, false, world);
  EXPECT_EQ(result.exit_code, 2);
  EXPECT_NE(result.error.find("No event can be read in old"), std::string::npos);  // record.nothing_salvaged
}

TEST(RecordCommand, ARecordIsNeeded) { EXPECT_EQ(run({"list"}, false).exit_code, 2); }

}  // namespace
}  // namespace fettle
