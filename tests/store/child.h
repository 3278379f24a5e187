#pragma once

#include <sys/types.h>

#include <functional>
#include <string>
#include <vector>

namespace fettle {

/// A process of its own that runs one function and tells lines through a pipe. Fork it while no database is open here.
class Child {
 public:
  /// Tells one line; when it returns the line outlives this process.
  using Tell = std::function<void(const std::string& line)>;
  explicit Child(const std::function<void(const Tell& tell)>& work);
  Child(const Child&) = delete;
  Child& operator=(const Child&) = delete;
  ~Child();

  /// Kills it without warning.
  void kill();
  /// All whole lines that it told until it ended. Waits for its end; `ended_well` is false if it was killed or threw.
  [[nodiscard]] std::vector<std::string> lines();
  [[nodiscard]] bool ended_well() const { return ended_well_; }
  /// Waits until it has told so many lines, or has ended.
  void wait_for(std::size_t lines);

 private:
  bool read_some();

  pid_t process_ = -1;
  int pipe_ = -1;
  std::string told_;
  bool ended_well_ = false;
};

}  // namespace fettle
