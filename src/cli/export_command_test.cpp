#include "cli/export_command.h"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <iterator>

#include "cli/exit_code.h"

namespace fettle {
namespace {

class ExportCommand : public testing::Test {
 protected:
  ExportCommand() : folder_(std::filesystem::path(testing::TempDir()) / "fettle_export") { std::filesystem::remove_all(folder_); }
  ~ExportCommand() override { std::filesystem::remove_all(folder_); }

  [[nodiscard]] RunResult exported(const std::vector<std::string>& more = {}) const {
    std::vector<std::string> arguments = {"export", std::string(FETTLE_SOURCE_DIR) + "/examples/curlew-3", "--out", folder_.string()};
    arguments.insert(arguments.end(), more.begin(), more.end());
    return run(arguments, false);
  }
  [[nodiscard]] std::string text(const std::string& name) const {
    std::ifstream stream(folder_ / name, std::ios::binary);
    return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
  }

  std::filesystem::path folder_;
};

TEST_F(ExportCommand, WritesEightFilesAndNamesThem) {
  const RunResult done = exported();
  EXPECT_EQ(done.exit_code, kFine) << done.error;
  std::size_t files = 0;
  for (const auto& each : std::filesystem::directory_iterator(folder_)) {
    EXPECT_NE(done.out.find(each.path().string() + "\n"), std::string::npos) << each.path();
    ++files;
  }
  EXPECT_EQ(files, 8U);
  EXPECT_TRUE(text("readings-table.csv").starts_with("event,part,kind,"));
}

TEST_F(ExportCommand, WhatWasWrittenIsAJobThatJudgesTheSame) {
  (void)exported();
  const RunResult before = run({"judge", std::string(FETTLE_SOURCE_DIR) + "/examples/curlew-3", "--json"}, false);
  const RunResult after = run({"judge", folder_.string(), "--json"}, false);
  EXPECT_TRUE(before.out == after.out);
  EXPECT_EQ(after.exit_code, kNotAllWithin);
}

TEST_F(ExportCommand, ACommaAsDecimalMarkInTheTablesOnly) {
  EXPECT_EQ(exported({"--decimal-mark", "comma"}).exit_code, kFine);
  EXPECT_TRUE(text("readings-table.csv").starts_with("event;part;kind;"));
  EXPECT_NE(text("readings-table.csv").find(";84,1417714;"), std::string::npos);
  EXPECT_NE(text("readings.json").find("\"84.1417714\""), std::string::npos);
  EXPECT_TRUE(text("readings.csv").starts_with("part,station,"));
}

TEST_F(ExportCommand, NothingIsOverwritten) {
  (void)exported();
  const std::string before = text("job.toml");
  const RunResult again = exported();
  EXPECT_EQ(again.exit_code, kInput);
  EXPECT_NE(again.error.find("already holds 8 names"), std::string::npos) << again.error;  // app.names_taken
  EXPECT_TRUE(text("job.toml") == before);
}

}  // namespace
}  // namespace fettle
