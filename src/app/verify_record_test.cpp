#include "app/verify_record.h"

#include <gtest/gtest.h>

#include "app/index_job.h"
#include "app/record_on_bench.h"
#include "wire/event_json.h"

namespace fettle {
namespace {

const std::string kJob = "tern-curlew-3";

struct Bench : RecordOnBench {
  Bench() {
    EXPECT_TRUE(take(read_folder(kExample).value()).ok());
    index_job(store, recorded(kJob));
  }
  [[nodiscard]] std::vector<std::string> faults() {
    GoesOn going;
    std::vector<std::string> out;
    for (const StoreFault& each : verify_record(store, going).faults) out.push_back(each.problem.code);
    return out;
  }
};

using Codes = std::vector<std::string>;

TEST(VerifyRecord, AWholeRecordHasNoFault) {
  Bench bench;
  EXPECT_EQ(bench.faults(), Codes{});
  GoesOn going;
  const VerifiedRecord looked = verify_record(bench.store, going);
  EXPECT_EQ(looked.jobs, 1);
  EXPECT_EQ(looked.events, static_cast<std::int64_t>(bench.store.events(kJob, 0).size()));
  EXPECT_EQ(looked.judgements, 1);
}

TEST(VerifyRecord, ABrokenRuleIsNamed) {
  Bench bench;
  const FileAttached attached{std::string(64, 'a'), "image/png", "photo.png", "bore-9", ""};
  EXPECT_EQ(refused(append(bench.store, bench.recorded(kJob), {attached}, bench.doing)), "record.rule_broken");
  // As a program that knows no rules would do it.
  const EventEnvelope event{std::string(32, 'b'), kJob, "d", 1, "", "", attached};
  ASSERT_TRUE(bench.store.accept({{kJob, event.id, event_json(event)}}).ok());
  index_job(bench.store, bench.recorded(kJob));
  EXPECT_EQ(bench.faults(), (Codes{"record.rule_broken", "record.file_missing"}));
}

TEST(VerifyRecord, ARowThatIsOlderThanTheLogIsNamed) {
  Bench bench;
  const FindingSeen seen{{"bore-1", "score", FindingWeight::note, "", {}}};
  ASSERT_TRUE(append(bench.store, bench.recorded(kJob), {seen}, bench.doing).ok());
  EXPECT_EQ(bench.faults(), Codes{"record.row_differs"});
  bench.store.drop_rows();
  EXPECT_EQ(bench.faults(), Codes{"record.row_missing"});
  index_job(bench.store, bench.recorded(kJob));
  EXPECT_EQ(bench.faults(), Codes{});
}

TEST(VerifyRecord, AJudgementOfEventsThatAreGoneIsNamed) {
  Bench bench;
  const RecordedJob recorded = bench.recorded(kJob);
  bench.store.keep_judgement({kJob, "0.0.9", static_cast<std::int64_t>(recorded.events.size()) + 1, std::string(64, 'a'), "", ""});
  EXPECT_EQ(bench.faults(), Codes{"record.judgement_of_nothing"});
}

TEST(VerifyRecord, AnEventThatCannotBeReadIsNamed) {
  Bench bench;
  ASSERT_TRUE(bench.store.accept({{"tern", "00112233445566778899aabbccddeeff", "{}"}}).ok());
  EXPECT_EQ(bench.faults(), (Codes{"wire.missing_key", "wire.missing_key"}));
}

}  // namespace
}  // namespace fettle
