#include <gmock/gmock.h>

#include <filesystem>

#include "store/store_suite.h"

namespace fettle {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

TEST_P(StoreSuite, KeepsAFileOnceByItsHash) {
  const StoredFile photo = some_file(2, 30'000);
  const StoredFile paper = some_file(3, 100);
  const StoredFile nothing = some_file(5, 0);
  store->keep_file(photo);
  store->keep_file(paper);
  store->keep_file(nothing);
  StoredFile again = photo;
  again.thumbnail = "another";
  store->keep_file(again);
  reopen();
  EXPECT_EQ(store->file(photo.hash), photo);
  EXPECT_EQ(store->file(paper.hash), paper);
  EXPECT_EQ(store->file(nothing.hash), nothing);
  EXPECT_EQ(store->file(std::string(64, '0')), std::nullopt);
  EXPECT_THAT(store->files(), ElementsAre(StoredFileRow{photo.hash, photo.type, 30'000}, StoredFileRow{paper.hash, paper.type, 100},
                                          StoredFileRow{nothing.hash, nothing.type, 0}));
  EXPECT_THAT(store->faults(), IsEmpty());
}

TEST_P(StoreSuite, ARowTakesThePlaceOfTheOldOne) {
  JobRow row = some_row(3);
  row.parts = {{"bore-1", "bore", "beyond"}, {"main-1", "main", "as-new"}};
  row.people = {"Ada"};
  store->keep_row(row);
  EXPECT_EQ(store->row(row.job), row);
  row.parts = {{"bore-1", "bore", "serviceable"}, {"pin-1", "pin", "as-new"}};
  row.people = {"Bo", "Cleo"};
  row.events = 12;
  store->keep_row(row);
  reopen();
  EXPECT_EQ(store->row(row.job), row);
  const FindQuery nothing{{}, {}, {}, {}, {}, {}, 0, 10};
  FindQuery query = nothing;
  query.state = "beyond";
  EXPECT_EQ(store->find(query).all, 0);
  query = nothing;
  query.part = "main-1";
  EXPECT_EQ(store->find(query).all, 0);
  query = nothing;
  query.person = "Ada";
  EXPECT_EQ(store->find(query).all, 0);
  EXPECT_THAT(store->faults(), IsEmpty());
  store->drop_rows();
  EXPECT_EQ(store->row(row.job), std::nullopt);
  EXPECT_EQ(store->find(nothing).all, 0);
}

TEST_P(StoreSuite, KeepsOneJudgementOfAJobForEachProgram) {
  StoredJudgement first = some_judgement("tern", "0.9");
  const StoredJudgement second = some_judgement("tern", "1.0");
  store->keep_judgement(first);
  store->keep_judgement(second);
  store->keep_judgement(some_judgement("knot", "1.0"));
  EXPECT_THAT(store->judgements("tern"), ElementsAre(first, second));
  first.verdicts = "anew";
  first.hash = "is made by the store";
  store->keep_judgement(first);
  first.hash = judgement_hash(first);
  reopen();
  EXPECT_THAT(store->judgements("tern"), ElementsAre(second, first));
  EXPECT_THAT(store->judgements("lark"), IsEmpty());
}

TEST_P(StoreSuite, KeepsDevicesAndARevokedOneStaysRevoked) {
  const StoredDevice phone{"d-1", "Ada's phone \xC3\xB6", std::string(64, 'a'), "2031-05-04T08:12:00.000000Z", {}, false};
  StoredDevice tablet{"d-2", "tablet", std::string(64, 'b'), "2031-05-03T08:12:00.000000Z", {}, false};
  store->keep_device(phone);
  store->keep_device(tablet);
  StoredDevice again = phone;
  again.key_hash = std::string(64, 'f');
  store->keep_device(again);
  reopen();
  EXPECT_THAT(store->devices(), ElementsAre(phone, tablet));
  EXPECT_TRUE(store->revoke_device("d-2"));
  EXPECT_FALSE(store->revoke_device("d-3"));
  store->device_seen("d-2", "2031-05-06T08:12:00.000000Z");
  store->device_seen("d-3", "2031-05-06T08:12:00.000000Z");
  tablet.revoked = true;
  tablet.last_seen = "2031-05-06T08:12:00.000000Z";
  reopen();
  EXPECT_THAT(store->devices(), ElementsAre(phone, tablet));
  EXPECT_THAT(store->faults(), IsEmpty());
}

TEST_P(StoreSuite, KeepsLinesOfGaugesUntilTheyAreDroppedAndGivesNoNumberTwice) {
  const std::string raw("+0.071\0\xff mm", 11);
  EXPECT_EQ(store->keep_gauge_line("g2", raw, "2031-05-04T08:12:00.000000Z"), 1);
  EXPECT_EQ(store->keep_gauge_line("g3", "", "2031-05-04T08:12:01.000000Z"), 2);
  reopen();
  EXPECT_THAT(store->gauge_lines(), ElementsAre(StoredGaugeLine{1, "g2", raw, "2031-05-04T08:12:00.000000Z"},
                                                StoredGaugeLine{2, "g3", "", "2031-05-04T08:12:01.000000Z"}));
  EXPECT_TRUE(store->drop_gauge_line(2));
  EXPECT_FALSE(store->drop_gauge_line(2));
  EXPECT_EQ(store->keep_gauge_line("g2", "next", "2031-05-04T08:12:02.000000Z"), 3);
  EXPECT_EQ(store->gauge_lines().size(), 2U);
  EXPECT_THAT(store->faults(), IsEmpty());
}

TEST_P(StoreSuite, ABackupHoldsEverythingAndIsNeverWrittenOver) {
  ASSERT_TRUE(store->accept(some_events("tern", 1, 40)).ok());
  store->keep_file(some_file(2, 50'000));
  store->keep_row(some_row(3));
  store->keep_judgement(some_judgement("tern", "1.0"));
  const TestFolder elsewhere;
  const std::string path = elsewhere.file("backup");
  const auto before = store->events("tern", 0);
  EXPECT_THAT(store->back_up(path), IsEmpty());
  const auto size = std::filesystem::file_size(path);
  EXPECT_GT(size, 50'000U);
  ASSERT_TRUE(store->accept(some_events("tern", 41, 50)).ok());
  const Problems refused = store->back_up(path);
  ASSERT_EQ(refused.size(), 1U);
  EXPECT_EQ(refused.front().code, "store.file_exists");
  EXPECT_EQ(std::filesystem::file_size(path), size);
  const Problems nowhere = store->back_up(elsewhere.file("no/such/folder"));
  ASSERT_EQ(nowhere.size(), 1U);
  EXPECT_EQ(nowhere.front().code, "store.cannot_write");
  const auto copy = GetParam().open_backup(path, time);
  EXPECT_EQ(copy->events("tern", 0), before);
  EXPECT_EQ(copy->file(some_file(2, 50'000).hash), some_file(2, 50'000));
  EXPECT_EQ(copy->row(some_row(3).job), some_row(3));
  EXPECT_THAT(copy->judgements("tern"), ElementsAre(some_judgement("tern", "1.0")));
  EXPECT_EQ(copy->accept(some_events("tern", 41, 41)).value().front().previous, before.back().accepted.hash);
}

}  // namespace
}  // namespace fettle
