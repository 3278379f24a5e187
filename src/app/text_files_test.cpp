#include "app/text_files.h"

#include <gtest/gtest.h>

#include <unistd.h>

#include <filesystem>

namespace fettle {
namespace {

class TextFiles : public testing::Test {
 protected:
  TextFiles() : folder_(std::filesystem::temp_directory_path() / ("fettle-text-files-" + std::to_string(::getpid()))) {}
  ~TextFiles() override { std::filesystem::remove_all(folder_); }
  [[nodiscard]] std::string path(const char* name) const { return (folder_ / name).string(); }
  std::filesystem::path folder_;
};

TEST_F(TextFiles, WhatIsWrittenIsReadBack) {
  EXPECT_TRUE(write_new_text_file(path("deep/er/a.txt"), "84,02 mm\n").empty());
  Problems problems;
  EXPECT_EQ(read_text_file(path("deep/er/a.txt"), problems), "84,02 mm\n");
  EXPECT_TRUE(problems.empty());
}

TEST_F(TextFiles, WhatIsThereIsNotOverwritten) {
  ASSERT_TRUE(write_new_text_file(path("a.txt"), "first").empty());
  const Problems refused = write_new_text_file(path("a.txt"), "second");
  ASSERT_EQ(refused.size(), 1U);
  EXPECT_EQ(refused.front().code, "app.file_exists");
  Problems problems;
  EXPECT_EQ(read_text_file(path("a.txt"), problems), "first");
}

TEST_F(TextFiles, AFileInAFileCannotBeWritten) {
  ASSERT_TRUE(write_new_text_file(path("a.txt"), "a file").empty());
  const Problems refused = write_new_text_file(path("a.txt/b.txt"), "below a file");
  ASSERT_EQ(refused.size(), 1U);
  EXPECT_EQ(refused.front().code, "app.cannot_write");
}

TEST_F(TextFiles, NamesAreAskedForBeforeLongWork) {
  EXPECT_TRUE(prepare_folder(path("new/one"), {"a.txt", "b"}).empty());
  EXPECT_TRUE(std::filesystem::is_directory(folder_ / "new/one"));
  std::filesystem::create_directories(folder_ / "new/one/b");
  EXPECT_TRUE(prepare_folder(path("new/one"), {"a.txt", "b"}).empty());  // an empty folder takes no name
  ASSERT_TRUE(write_new_text_file(path("new/one/b/c.txt"), "kept").empty());
  ASSERT_TRUE(write_new_text_file(path("new/one/d.txt"), "kept").empty());
  const Problems refused = prepare_folder(path("new/one"), {"a.txt", "b", "d.txt"});
  EXPECT_EQ(refused, (Problems{{"app.names_taken", {}, {verbatim("folder", path("new/one")), count("taken", 2), verbatim("first", "b")}}}));
  const Problems below_a_file = prepare_folder(path("new/one/d.txt"), {"a.txt"});
  ASSERT_EQ(below_a_file.size(), 1U);
  EXPECT_EQ(below_a_file.front().code, "app.cannot_write");
}

TEST_F(TextFiles, AMissingFileIsSaid) {
  Problems problems;
  EXPECT_EQ(read_text_file(path("none.txt"), problems), std::nullopt);
  ASSERT_EQ(problems.size(), 1U);
  EXPECT_EQ(problems.front().code, "app.no_file");
}

}  // namespace
}  // namespace fettle
