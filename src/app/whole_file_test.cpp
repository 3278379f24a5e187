#include "app/whole_file.h"

#include <gtest/gtest.h>

#include <filesystem>

#include "app/text_files.h"

namespace fettle {
namespace {

struct Folder {
  Folder() : path(testing::TempDir() + "whole-file") {
    std::filesystem::remove_all(path);
    std::filesystem::create_directories(path);
  }
  [[nodiscard]] std::size_t files() const {
    return static_cast<std::size_t>(std::distance(std::filesystem::directory_iterator(path), std::filesystem::directory_iterator()));
  }
  std::string path;
};

TEST(WholeFile, IsWrittenOnceAndNeverOver) {
  const Folder folder;
  const std::string path = folder.path + "/a";
  EXPECT_TRUE(write_whole_file(path, std::string("x\0y", 3)).empty());
  Problems problems;
  EXPECT_EQ(read_text_file(path, problems), std::string("x\0y", 3));
  EXPECT_EQ(write_whole_file(path, "z").front().code, "app.file_exists");
  EXPECT_TRUE(copy_whole_file(path, folder.path + "/b").empty());
  EXPECT_EQ(read_text_file(folder.path + "/b", problems), std::string("x\0y", 3));
  EXPECT_EQ(copy_whole_file(path, folder.path + "/b").front().code, "app.file_exists");
  EXPECT_EQ(folder.files(), 2U);
}

TEST(WholeFile, IsReadWholeUpToItsLimit) {
  const Folder folder;
  const std::string bytes(3U << 20U, 'x');
  ASSERT_TRUE(write_whole_file(folder.path + "/a", bytes).empty());
  Problems problems;
  EXPECT_TRUE(read_whole_file(folder.path + "/a", bytes.size(), problems) == bytes);
  EXPECT_TRUE(problems.empty());
  EXPECT_FALSE(read_whole_file(folder.path + "/a", bytes.size() - 1, problems));
  EXPECT_FALSE(read_whole_file(folder.path, 1, problems)) << "a folder is no file";
  ASSERT_EQ(problems.size(), 2U);
  EXPECT_EQ(problems[0].code, "app.larger_than");
  EXPECT_EQ(problems[1].code, "app.cannot_read");
}

TEST(WholeFile, LeavesNothingBehindWhereItCannotBe) {
  const Folder folder;
  EXPECT_EQ(write_whole_file(folder.path + "/no/such", "x").front().code, "app.cannot_write");
  EXPECT_EQ(copy_whole_file(folder.path + "/none", folder.path + "/c").front().code, "app.no_file");
  EXPECT_EQ(folder.files(), 0U);
}

}  // namespace
}  // namespace fettle
