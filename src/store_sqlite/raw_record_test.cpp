#include "store_sqlite/raw_record.h"

#include <gtest/gtest.h>
#include <stdlib.h>

#include <filesystem>

#include "store_sqlite/connection.h"

namespace fettle::sqlite {
namespace {

class RawRecordTest : public testing::Test {
 protected:
  RawRecordTest() {
    std::string name = testing::TempDir() + "fettle-raw-XXXXXX";
    EXPECT_NE(::mkdtemp(name.data()), nullptr);
    folder = name;
    path = folder + "/file";
  }
  ~RawRecordTest() override { std::filesystem::remove_all(folder); }

  void write(const std::string& sql) const {
    Connection connection(path, Access::create, std::chrono::milliseconds(0));
    connection.script("pragma page_size=8192; " + sql);
  }

  /// The cells of the second page, where the first table begins.
  [[nodiscard]] std::vector<RawCell> second_page() const {
    PageFile pages(path, 8192);
    const auto page = pages.page(2);
    return page ? cells_of(*page, 2, pages) : std::vector<RawCell>();
  }

  std::string folder;
  std::string path;
};

TEST_F(RawRecordTest, ReadsEveryWidthOfWholeNumber) {
  write("create table t (a); insert into t values (0), (1), (-1), (127), (-128), (32767), (-8388608), (8388607), (-2147483648), "
        "(140737488355327), (-140737488355328), (9223372036854775807), (-9223372036854775808);");
  std::vector<std::int64_t> found;
  for (const RawCell& cell : second_page()) found.push_back(std::get<std::int64_t>(cell.record.at(0)));
  EXPECT_EQ(found, (std::vector<std::int64_t>{0, 1, -1, 127, -128, 32767, -8388608, 8388607, -2147483648, 140737488355327, -140737488355328,
                                              INT64_MAX, INT64_MIN}));
}

TEST_F(RawRecordTest, FollowsOverflowPagesAtEveryLength) {
  // Around where a row first leaves its page (8157 bytes of payload), and where one and two more pages fill up.
  for (const std::size_t size : {8140U, 8150U, 8151U, 8152U, 8153U, 8154U, 8155U, 8156U, 8157U, 8158U, 8200U, 9150U, 9160U, 16340U, 16345U,
                                 17300U, 17350U, 24700U, 100000U}) {
    std::filesystem::remove(path);
    const std::string text(size, 'x');
    write("create table t (a); insert into t values ('" + text + "end');");
    const auto cells = second_page();
    ASSERT_EQ(cells.size(), 1U) << size;
    EXPECT_EQ(std::get<std::string>(cells.front().record.at(0)), text + "end") << size;
  }
}

TEST_F(RawRecordTest, ReadsRowNumbersTextsBlobsAndNothing) {
  write("create table t (n integer primary key, a, b, c, d); insert into t values (-5, null, 'Maß', x'00ff', 1.5), (70000, '', x'', 2, 'x');");
  const auto cells = second_page();
  ASSERT_EQ(cells.size(), 2U);
  EXPECT_EQ(cells[0].number, -5);
  EXPECT_EQ(cells[0].record, (RawRecord{{}, {}, std::string("Maß"), std::string("\0\xff", 2), {}}));
  EXPECT_EQ(cells[1].number, 70000);
  EXPECT_EQ(cells[1].record, (RawRecord{{}, std::string(), std::string(), std::int64_t{2}, std::string("x")}));
}

}  // namespace
}  // namespace fettle::sqlite
