#include "store/accepted.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace fettle {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

std::vector<AcceptedEvent> chain_of(int events) {
  std::vector<AcceptedEvent> out;
  std::string previous = kNoHash;
  for (int i = 1; i <= events; ++i) {
    const Envelope envelope{"tern", std::string(31, '0') + static_cast<char>('0' + i), "line " + std::to_string(i)};
    const std::string at = "2031-05-04T08:12:00.000000Z";
    const std::string hash = chain_hash(envelope, i, at, previous);
    out.push_back({envelope, {i, at, previous, hash}});
    previous = hash;
  }
  return out;
}

TEST(Chain, WholeChainHasNoBreak) {
  EXPECT_THAT(chain_breaks(chain_of(4)), IsEmpty());
  EXPECT_THAT(chain_breaks({}), IsEmpty());
}

TEST(Chain, AChangedLineBreaksAtItsPlace) {
  auto events = chain_of(4);
  events[1].envelope.line = "line 9";
  EXPECT_THAT(chain_breaks(events), ElementsAre(ChainBreak{2, "hash"}));
}

TEST(Chain, ADroppedEventIsMissing) {
  auto events = chain_of(4);
  events.erase(events.begin() + 1);
  EXPECT_THAT(chain_breaks(events), ElementsAre(ChainBreak{2, "missing"}));
}

TEST(Chain, ADroppedEventWithLaterOnesMovedUpIsSeen) {
  auto events = chain_of(4);
  events.erase(events.begin() + 1);
  events[1].accepted.position = 2;
  events[2].accepted.position = 3;
  EXPECT_THAT(chain_breaks(events), ElementsAre(ChainBreak{2, "previous"}, ChainBreak{2, "hash"}, ChainBreak{3, "hash"}));
}

TEST(Chain, ARewrittenEventWithItsOwnHashMendedBreaksTheNext) {
  auto events = chain_of(3);
  events[0].envelope.line = "line 9";
  events[0].accepted.hash = chain_hash(events[0].envelope, 1, events[0].accepted.accepted_at, kNoHash);
  EXPECT_THAT(chain_breaks(events), ElementsAre(ChainBreak{2, "previous"}));
}

TEST(Chain, EveryFieldEntersTheHash) {
  const Envelope envelope{"tern", std::string(32, 'a'), "line"};
  const std::string hash = chain_hash(envelope, 1, "t", kNoHash);
  EXPECT_NE(hash, chain_hash({"turn", envelope.id, envelope.line}, 1, "t", kNoHash));
  EXPECT_NE(hash, chain_hash({envelope.job, std::string(32, 'b'), envelope.line}, 1, "t", kNoHash));
  EXPECT_NE(hash, chain_hash({envelope.job, envelope.id, "lines"}, 1, "t", kNoHash));
  EXPECT_NE(hash, chain_hash(envelope, 2, "t", kNoHash));
  EXPECT_NE(hash, chain_hash(envelope, 1, "u", kNoHash));
  EXPECT_NE(hash, chain_hash(envelope, 1, "t", std::string(64, '1')));
  EXPECT_EQ(hash.size(), 64U);
}

}  // namespace
}  // namespace fettle
