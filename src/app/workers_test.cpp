#include "app/workers.h"

#include <gtest/gtest.h>

#include <atomic>
#include <future>

namespace fettle {
namespace {

TEST(Workers, DoAllThatWasHandedOverBeforeTheyGo) {
  std::atomic<int> done = 0;
  {
    Workers workers(3);
    for (int i = 0; i < 100; ++i) workers.hand([&] { ++done; });
  }
  EXPECT_EQ(done, 100);
}

TEST(Workers, WorkSideBySide) {
  Workers workers(2);
  std::promise<void> other_came;
  std::promise<bool> saw;
  // The first can only end once the second runs beside it.
  workers.hand([&] { saw.set_value(other_came.get_future().wait_for(std::chrono::seconds(20)) == std::future_status::ready); });
  workers.hand([&] { other_came.set_value(); });
  EXPECT_TRUE(saw.get_future().get());
}

}  // namespace
}  // namespace fettle
