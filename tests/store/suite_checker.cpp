#include <gmock/gmock.h>

#include "store/store_suite.h"

namespace fettle {
namespace {

using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

/// A store that promises too much: it acknowledges one event without having it, or with another hash.
class Liar final : public Store {
 public:
  enum class Lie { drops, changes };
  Liar(std::unique_ptr<Store> store, std::int64_t nth, Lie lie) : store_(std::move(store)), nth_(nth), lie_(lie) {}

  Result<std::vector<Accepted>> accept(const std::vector<Envelope>& envelopes) override {
    if (++calls_ != nth_) return store_->accept(envelopes);
    if (lie_ == Lie::drops) return std::vector<Accepted>{{calls_, "2031-05-04T08:12:00.000000Z", kNoHash, std::string(64, 'c')}};
    auto accepted = store_->accept(envelopes).value();
    accepted.front().hash.back() = accepted.front().hash.back() == '0' ? '1' : '0';
    return accepted;
  }
  Result<std::vector<Accepted>> accept_after(const std::vector<Envelope>& envelopes, std::int64_t position) override {
    return store_->accept_after(envelopes, position);
  }
  Result<std::int64_t> take_over(const std::vector<AcceptedEvent>& events) override { return store_->take_over(events); }
  std::vector<AcceptedEvent> events(const std::string& job, std::int64_t after) override { return store_->events(job, after); }
  std::optional<Accepted> last(const std::string& job) override { return store_->last(job); }
  std::vector<std::string> jobs() override { return store_->jobs(); }
  void keep_file(const StoredFile& file) override { store_->keep_file(file); }
  std::optional<StoredFile> file(const std::string& hash) override { return store_->file(hash); }
  std::vector<StoredFileRow> files() override { return store_->files(); }
  void keep_row(const JobRow& row) override { store_->keep_row(row); }
  void drop_rows() override { store_->drop_rows(); }
  std::optional<JobRow> row(const std::string& job) override { return store_->row(job); }
  FoundJobs find(const FindQuery& query) override { return store_->find(query); }
  void keep_judgement(const StoredJudgement& judgement) override { store_->keep_judgement(judgement); }
  std::vector<StoredJudgement> judgements(const std::string& job) override { return store_->judgements(job); }
  void keep_device(const StoredDevice& device) override { store_->keep_device(device); }
  bool revoke_device(const std::string& id) override { return store_->revoke_device(id); }
  void device_seen(const std::string& id, const std::string& at) override { store_->device_seen(id, at); }
  std::vector<StoredDevice> devices() override { return store_->devices(); }
  std::int64_t keep_gauge_line(const std::string& port, const std::string& bytes, const std::string& at) override { return store_->keep_gauge_line(port, bytes, at); }
  bool drop_gauge_line(std::int64_t number) override { return store_->drop_gauge_line(number); }
  std::vector<StoredGaugeLine> gauge_lines() override { return store_->gauge_lines(); }
  std::vector<StoreFault> faults() override { return store_->faults(); }
  Problems back_up(const std::string& path) override { return store_->back_up(path); }

 private:
  std::unique_ptr<Store> store_;
  std::int64_t calls_ = 0;
  std::int64_t nth_;
  Lie lie_;
};

std::vector<std::string> found_of(Store& store, std::int64_t events) {
  std::vector<Acknowledged> acknowledged;
  for (std::int64_t i = 1; i <= events; ++i) acknowledged.push_back({some_event("tern", i), store.accept({some_event("tern", i)}).value().front()});
  return broken_promises(store, acknowledged);
}

TEST_P(StoreSuite, TheCheckOfTheseTestsFindsADroppedEvent) {
  Liar liar(std::move(store), 17, Liar::Lie::drops);
  EXPECT_THAT(found_of(liar, 30), Contains(HasSubstr("000017: acknowledged and lost")));
}

TEST_P(StoreSuite, TheCheckOfTheseTestsFindsTheLastEventDropped) {
  Liar liar(std::move(store), 30, Liar::Lie::drops);
  EXPECT_THAT(found_of(liar, 30), Contains(HasSubstr("000030: acknowledged and lost")));
}

TEST_P(StoreSuite, TheCheckOfTheseTestsFindsAnotherAnswer) {
  Liar liar(std::move(store), 17, Liar::Lie::changes);
  EXPECT_THAT(found_of(liar, 30), Contains(HasSubstr("000017: not as acknowledged")));
}

TEST_P(StoreSuite, TheCheckOfTheseTestsFindsNothingInAnHonestStore) {
  Liar honest(std::move(store), 0, Liar::Lie::drops);
  EXPECT_THAT(found_of(honest, 30), IsEmpty());
}

}  // namespace
}  // namespace fettle
