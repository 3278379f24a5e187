#include "server/body_room.h"

#include <gtest/gtest.h>

namespace fettle {
namespace {

TEST(BodyRoom, HoldsNoMoreThanItMayAndKeepsAPlaceForWhatIsSmall) {
  BodyRoom room(100, 70, 10);
  auto first = room.take(40);
  auto second = room.take(30);
  EXPECT_TRUE(first);
  EXPECT_TRUE(second);
  EXPECT_FALSE(room.take(11)) << "a large one more";
  auto small = room.take(10);
  EXPECT_TRUE(small);
  EXPECT_TRUE(room.take(10)) << "given back at once";
  auto more = room.take(10);
  auto most = room.take(10);
  EXPECT_EQ(room.taken(), 100U);
  EXPECT_FALSE(room.take(1));
  EXPECT_TRUE(room.take(0)) << "what has no body always gets in";
  first.reset();
  EXPECT_EQ(room.taken(), 60U);
  EXPECT_FALSE(room.take(11)) << "small ones count as well";
  second.reset();
  EXPECT_TRUE(room.take(40));
  EXPECT_FALSE(room.take(static_cast<std::size_t>(-1)));
  EXPECT_EQ(room.taken(), 30U);
}

TEST(BodyRoom, APlaceThatIsHandedOnIsGivenBackOnce) {
  BodyRoom room(100, 100, 10);
  {
    auto place = room.take(40);
    const std::optional<BodyRoom::Place> other = std::move(place);
    EXPECT_EQ(room.taken(), 40U);
  }
  EXPECT_EQ(room.taken(), 0U);
}

}  // namespace
}  // namespace fettle
