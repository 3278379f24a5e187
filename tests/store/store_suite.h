#pragma once

#include <gtest/gtest.h>

#include <functional>
#include <memory>
#include <string>

#include "store/test_events.h"
#include "store/test_folder.h"

namespace fettle {

/// How the suite gets a store. Opening twice with the same folder, one after the other or both at once, gives the same events.
struct StoreMaker {
  std::string name;
  std::function<std::unique_ptr<Store>(const std::string& folder, Clock& acceptance_clock)> open;
  /// A store that holds what this backup holds.
  std::function<std::unique_ptr<Store>(const std::string& backup, Clock& acceptance_clock)> open_backup;
};

/// What every store must do. A store is added by one more INSTANTIATE_TEST_SUITE_P of StoreSuite in a file of its own.
class StoreSuite : public testing::TestWithParam<StoreMaker> {
 protected:
  StoreSuite() : store(open()) {}
  std::unique_ptr<Store> open() { return GetParam().open(folder.path(), time); }
  void reopen() {
    store.reset();
    store = open();
  }

  SetClock time;
  TestFolder folder;
  std::unique_ptr<Store> store;
};

}  // namespace fettle
