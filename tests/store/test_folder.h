#pragma once

#include <string>

namespace fettle {

/// A fresh folder that goes away with everything in it.
class TestFolder {
 public:
  TestFolder();
  TestFolder(const TestFolder&) = delete;
  TestFolder& operator=(const TestFolder&) = delete;
  ~TestFolder();
  [[nodiscard]] const std::string& path() const { return path_; }
  [[nodiscard]] std::string file(const std::string& name) const { return path_ + "/" + name; }

 private:
  std::string path_;
};

[[nodiscard]] std::string bytes_of_file(const std::string& path);
void write_bytes(const std::string& path, const std::string& bytes);

}  // namespace fettle
