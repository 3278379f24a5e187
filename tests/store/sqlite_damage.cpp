#include <gmock/gmock.h>

#include <algorithm>

#include "store/sqlite_maker.h"
#include "store/test_events.h"
#include "store/test_folder.h"

namespace fettle {
namespace {

using ::testing::Contains;
using ::testing::IsEmpty;

class SqliteDamage : public testing::Test {
 protected:
  SqliteDamage() {
    const auto store = open_sqlite(path, time);
    for (std::int64_t i = 1; i <= 120; i += 40) {
      for (const char* job : {"tern", "knot", "lark"}) (void)store->accept(some_events(job, i, i + 39)).value();
    }
    (void)store->accept({{"lark", id_of(999), long_line}}).value();
    store->keep_file(file);
    for (std::int64_t i = 0; i < 12; ++i) store->keep_row(some_row(i));
    store->keep_judgement(some_judgement("tern", "1.0"));
    for (const char* job : {"tern", "knot", "lark"}) events[job] = store->events(job, 0);
  }

  void replace(const std::string& what, const std::string& with) {
    std::string bytes = bytes_of_file(path);
    const auto at = bytes.find(what);
    ASSERT_NE(at, std::string::npos) << what;
    write_bytes(path, bytes.replace(at, with.size(), with));
  }

  std::vector<std::string> codes() {
    std::vector<std::string> out;
    for (const StoreFault& fault : open_sqlite(path, time)->faults()) out.push_back(fault.problem.code);
    return out;
  }

  SetClock time;
  TestFolder folder;
  std::string path = folder.file("jobs.fettle");
  std::string long_line = std::string(40'000, 'l');
  StoredFile file = some_file(2, 20'000);
  std::map<std::string, std::vector<AcceptedEvent>> events;
};

TEST_F(SqliteDamage, AWholeStoreHasNoFault) { EXPECT_THAT(codes(), IsEmpty()); }

TEST_F(SqliteDamage, AnEventWhoseBytesChangedIsNamedAndLeftOut) {
  const std::string line = events["knot"][16].envelope.line;
  replace(line, "{\"type\":\"ReadingTakes");
  EXPECT_THAT(codes(), Contains("store.chain_broken"));
  auto rest = events["knot"];
  rest.erase(rest.begin() + 16);
  EXPECT_EQ(open_sqlite(path, time)->events("knot", 0), rest);
  EXPECT_EQ(open_sqlite(path, time)->events("tern", 0), events["tern"]);
}

TEST_F(SqliteDamage, RowsThatStandInAnotherOrderAreNamedAndReadInTheirOwn) {
  std::string bytes = bytes_of_file(path);
  const auto line = bytes.find(events["tern"][16].envelope.line);
  ASSERT_NE(line, std::string::npos);
  // Where the page's second and third row begin stands behind its head of eight bytes and the first row's beginning.
  const auto second = line / 8192 * 8192 + 10;
  std::swap_ranges(bytes.begin() + static_cast<std::ptrdiff_t>(second), bytes.begin() + static_cast<std::ptrdiff_t>(second + 2),
                   bytes.begin() + static_cast<std::ptrdiff_t>(second + 2));
  write_bytes(path, bytes);
  EXPECT_THAT(codes(), Contains("store.database_damaged"));
  EXPECT_EQ(open_sqlite(path, time)->events("tern", 0), events["tern"]);
}

TEST_F(SqliteDamage, AFileWhoseBytesChangedIsNamedAndNotGiven) {
  replace(file.bytes.substr(500, 20), "another text here...");
  EXPECT_THAT(codes(), Contains("store.file_changed"));
  EXPECT_THROW((void)open_sqlite(path, time)->file(file.hash), StoreError);
}

TEST_F(SqliteDamage, AThumbnailThatChangedIsNamed) {
  replace(file.thumbnail, "smell");
  EXPECT_THAT(codes(), Contains("store.file_changed"));
}

TEST_F(SqliteDamage, AJudgementThatChangedIsNamedAndLeftOut) {
  replace("bore-2 beyond by", "bore-2 within by");
  EXPECT_THAT(codes(), Contains("store.judgement_changed"));
  EXPECT_THAT(open_sqlite(path, time)->judgements("tern"), IsEmpty());
}

TEST_F(SqliteDamage, ARowThatChangedIsNamedAndLeftOut) {
  replace("Engine 7", "Engine 8");
  EXPECT_THAT(codes(), Contains("store.row_changed"));
  EXPECT_EQ(open_sqlite(path, time)->row(some_row(7).job), std::nullopt);
  EXPECT_EQ(open_sqlite(path, time)->row(some_row(8).job), some_row(8));
}

TEST_F(SqliteDamage, ADeviceOrALineOfAGaugeThatChangedIsNamedAndLeftOut) {
  {
    const auto store = open_sqlite(path, time);
    store->keep_device({"d-1", "phone of the yard", std::string(64, 'a'), "2031-05-04T08:12:00.000000Z", {}, false});
    (void)store->keep_gauge_line("g2", "plus seventy-one", "2031-05-04T08:12:00.000000Z");
  }
  replace("phone of the yard", "phone of the lane");
  EXPECT_THAT(codes(), Contains("store.desk_changed"));
  EXPECT_THAT(open_sqlite(path, time)->devices(), IsEmpty());
  EXPECT_EQ(open_sqlite(path, time)->gauge_lines().size(), 1U);
  replace("plus seventy-one", "plus seventy-two");
  EXPECT_THAT(open_sqlite(path, time)->gauge_lines(), IsEmpty());
}

TEST_F(SqliteDamage, WritingToAJobWhoseEndIsDamagedIsRefused) {
  replace(events["tern"].back().envelope.line, "{\"type\":\"ReadingTakes");
  const auto store = open_sqlite(path, time);
  EXPECT_THROW((void)store->accept({some_event("tern", 500)}), StoreError);
  EXPECT_TRUE(store->accept({some_event("knot", 500)}).ok());
}

}  // namespace
}  // namespace fettle
