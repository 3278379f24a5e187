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

TEST(WholeFile, LeavesNothingBehindWhereItCannotBe) {
  const Folder folder;
  EXPECT_EQ(write_whole_file(folder.path + "/no/such", "x").front().code, "app.cannot_write");
  EXPECT_EQ(copy_whole_file(folder.path + "/none", folder.path + "/c").front().code, "app.no_file");
  EXPECT_EQ(folder.files(), 0U);
}

}  // namespace
}  // namespace fettle
