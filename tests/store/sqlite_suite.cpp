#include "store/sqlite_maker.h"
#include "store/store_suite.h"

namespace fettle {
namespace {

std::unique_ptr<Store> open_in(const std::string& folder, Clock& acceptance_clock) { return open_sqlite(sqlite_file(folder), acceptance_clock); }

INSTANTIATE_TEST_SUITE_P(SqliteOnDisk, StoreSuite, testing::Values(StoreMaker{"SqliteOnDisk", open_in, open_sqlite}),
                         [](const auto& made) { return made.param.name; });

}  // namespace
}  // namespace fettle
