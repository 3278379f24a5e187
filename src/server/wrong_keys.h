#pragma once

#include <cstdint>
#include <map>
#include <mutex>
#include <string>

namespace fettle {

/// How often an address brought a wrong key or code. After `most` in a row it must wait before its next one is looked at. Times are given in
/// milliseconds of any clock that goes forward.
class WrongKeys {
 public:
  WrongKeys(int most, std::int64_t wait_milliseconds) : most_(most), wait_(wait_milliseconds) {}

  [[nodiscard]] bool must_wait(const std::string& address, std::int64_t now);
  void wrong(const std::string& address, std::int64_t now);
  void right(const std::string& address);

 private:
  struct Tries {
    int wrong;
    std::int64_t last;
  };
  const int most_;
  const std::int64_t wait_;
  std::mutex mutex_;
  std::map<std::string, Tries> tries_;
};

}  // namespace fettle
