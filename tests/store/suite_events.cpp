#include <gmock/gmock.h>

#include "store/store_suite.h"

namespace fettle {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

std::vector<std::string> codes_of(const Problems& problems) {
  std::vector<std::string> out;
  for (const Problem& each : problems) out.push_back(each.code);
  return out;
}

std::vector<std::string> lines_of(const std::vector<AcceptedEvent>& events) {
  std::vector<std::string> out;
  for (const AcceptedEvent& each : events) out.push_back(each.envelope.line);
  return out;
}

TEST_P(StoreSuite, GivesPositionsAndAChain) {
  const auto accepted = store->accept(some_events("tern", 1, 3)).value();
  ASSERT_EQ(accepted.size(), 3U);
  EXPECT_EQ(accepted[0].position, 1);
  EXPECT_EQ(accepted[0].previous, kNoHash);
  EXPECT_EQ(accepted[2].position, 3);
  EXPECT_EQ(accepted[2].previous, accepted[1].hash);
  EXPECT_EQ(accepted[2].accepted_at, time.time);
  const auto events = store->events("tern", 0);
  EXPECT_THAT(chain_breaks(events), IsEmpty());
  EXPECT_EQ(events.back(), (AcceptedEvent{some_event("tern", 3), accepted[2]}));
}

TEST_P(StoreSuite, KeepsEveryByteThroughClosing) {
  const std::vector<std::string> lines = {"", std::string("a\0b", 3), "\xff\xfe no text", "quote ' \" ; -- \\", std::string(100'000, 'x'),
                                          std::string(9'000, '\0'), "Maß 84,02 µm \U0001F527"};
  std::vector<Envelope> envelopes;
  for (std::size_t i = 0; i < lines.size(); ++i) envelopes.push_back({"tern", id_of(static_cast<std::int64_t>(i)), lines[i]});
  ASSERT_TRUE(store->accept(envelopes).ok());
  reopen();
  EXPECT_EQ(lines_of(store->events("tern", 0)), lines);
  EXPECT_THAT(store->faults(), IsEmpty());
}

TEST_P(StoreSuite, TheSameEventIsAcceptedOnce) {
  const auto first = store->accept(some_events("tern", 1, 3)).value();
  time.time = "2031-05-04T09:00:00.000000Z";
  const auto again = store->accept({some_event("tern", 2), some_event("tern", 4), some_event("tern", 4)}).value();
  EXPECT_EQ(again[0], first[1]);
  EXPECT_EQ(again[1].position, 4);
  EXPECT_EQ(again[2], again[1]);
  EXPECT_EQ(store->events("tern", 0).size(), 4U);
}

TEST_P(StoreSuite, OtherBytesUnderAnIdAreRefusedAndNothingOfTheCallIsKept) {
  ASSERT_TRUE(store->accept(some_events("tern", 1, 2)).ok());
  Envelope changed = some_event("tern", 2);
  changed.line += " ";
  const auto refused = store->accept({some_event("tern", 3), changed, some_event("knot", 1)});
  ASSERT_FALSE(refused.ok());
  EXPECT_THAT(codes_of(refused.problems()), ElementsAre("store.other_bytes"));
  EXPECT_EQ(store->events("tern", 0).size(), 2U);
  EXPECT_THAT(store->jobs(), ElementsAre("tern"));
  Envelope twice = some_event("tern", 9);
  twice.line = "other";
  EXPECT_FALSE(store->accept({some_event("tern", 9), twice}).ok());
  EXPECT_TRUE(store->accept({some_event("knot", 2)}).ok());
  EXPECT_TRUE(store->accept({some_event("tern", 9)}).ok());
}

TEST_P(StoreSuite, JobsDoNotMixThoughTheirEventsDo) {
  for (std::int64_t i = 1; i <= 60; ++i) ASSERT_TRUE(store->accept({some_event("tern", i), some_event("Tern", i), some_event("knot", i)}).ok());
  EXPECT_THAT(store->jobs(), ElementsAre("Tern", "knot", "tern"));
  for (const std::string& job : store->jobs()) {
    const auto events = store->events(job, 0);
    EXPECT_EQ(events.size(), 60U);
    EXPECT_THAT(chain_breaks(events), IsEmpty());
    EXPECT_EQ(store->last(job), events.back().accepted);
  }
  EXPECT_EQ(store->events("knot", 57).size(), 3U);
  EXPECT_EQ(store->events("knot", 57).front().accepted.position, 58);
  EXPECT_THAT(store->events("knot", 60), IsEmpty());
}

TEST_P(StoreSuite, NothingIsThereOfAJobThatNobodyNamed) {
  EXPECT_THAT(store->jobs(), IsEmpty());
  EXPECT_THAT(store->events("tern", 0), IsEmpty());
  EXPECT_EQ(store->last("tern"), std::nullopt);
  EXPECT_TRUE(store->accept({}).value().empty());
  EXPECT_THAT(store->faults(), IsEmpty());
}

TEST_P(StoreSuite, AClockThatGoesBackDoesNoHarm) {
  ASSERT_TRUE(store->accept(some_events("tern", 1, 2)).ok());
  time.time = "1999-01-01T00:00:00.000000Z";
  const auto earlier = store->accept(some_events("tern", 3, 4)).value();
  EXPECT_EQ(earlier[1].position, 4);
  EXPECT_EQ(earlier[1].accepted_at, time.time);
  reopen();
  EXPECT_THAT(chain_breaks(store->events("tern", 0)), IsEmpty());
  EXPECT_THAT(store->faults(), IsEmpty());
}

TEST_P(StoreSuite, TakesOverEventsAsTheyWereAccepted) {
  const TestFolder elsewhere;
  const auto other = GetParam().open(elsewhere.path(), time);
  ASSERT_TRUE(other->accept(some_events("tern", 1, 5)).ok());
  const auto events = other->events("tern", 0);
  time.time = "2035-01-01T00:00:00.000000Z";
  EXPECT_EQ(store->take_over({events.begin(), events.begin() + 3}).value(), 3);
  EXPECT_EQ(store->take_over(events).value(), 2);
  EXPECT_EQ(store->take_over(events).value(), 0);
  EXPECT_EQ(store->events("tern", 0), events);
  EXPECT_EQ(store->accept({some_event("tern", 6)}).value().front().previous, events.back().accepted.hash);
}

TEST_P(StoreSuite, RefusesToTakeOverWhatDoesNotGoOn) {
  const TestFolder elsewhere;
  const auto other = GetParam().open(elsewhere.path(), time);
  ASSERT_TRUE(other->accept(some_events("tern", 1, 5)).ok());
  const auto events = other->events("tern", 0);
  const auto codes = [&](const std::vector<AcceptedEvent>& given) { return codes_of(store->take_over(given).problems()); };
  EXPECT_THAT(codes({events.begin() + 1, events.end()}), ElementsAre("store.chain_broken"));
  auto changed = events;
  changed[3].envelope.line += "!";
  EXPECT_THAT(codes(changed), ElementsAre("store.chain_broken"));
  EXPECT_THAT(store->jobs(), IsEmpty());
  ASSERT_TRUE(store->accept({some_event("tern", 1), some_event("tern", 7)}).ok());
  const auto refused = store->take_over(events).problems();
  EXPECT_THAT(codes_of(refused), ElementsAre("store.went_apart"));
  // Accepted at the same moment, the first event is the same in both.
  EXPECT_EQ(refused.front().arguments, (std::vector<Argument>{verbatim("job", "tern"), count("position", 2)}));
  EXPECT_EQ(store->events("tern", 0).size(), 2U);
}

TEST_P(StoreSuite, RefusesToTakeOverAnIdASecondTime) {
  ASSERT_TRUE(store->accept({some_event("tern", 1)}).ok());
  AcceptedEvent again = store->events("tern", 0).front();
  again.accepted.position = 2;
  again.accepted.previous = again.accepted.hash;
  again.accepted.hash = chain_hash(again.envelope, 2, again.accepted.accepted_at, again.accepted.previous);
  EXPECT_THAT(codes_of(store->take_over({again}).problems()), ElementsAre("store.other_bytes"));
}

}  // namespace
}  // namespace fettle
