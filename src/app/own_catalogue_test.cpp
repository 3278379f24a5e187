#include "app/own_catalogue.h"

#include <gtest/gtest.h>

namespace fettle {
namespace {

// What is accepted is put in place for the whole process: tests/cli/runs/own_kind.run does that in one of its own.
TEST(OwnCatalogue, AFolderWithoutOneIsRefused) {
  const std::string root = FETTLE_SOURCE_DIR;
  const Problems none = use_own_catalogue(root + "/no-such-folder");
  ASSERT_EQ(none.size(), 1U);
  EXPECT_EQ(none.front().code, "app.no_folder");
  const Problems empty = use_own_catalogue(root + "/tests/cli/jobs/own-kind");
  ASSERT_EQ(empty.size(), 1U);
  EXPECT_EQ(empty.front().code, "app.no_catalogue");
}

}  // namespace
}  // namespace fettle
