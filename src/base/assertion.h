#pragma once

#include <stdexcept>
#include <string>

namespace fettle {

/// We were wrong: something that must hold does not. Never thrown for what a person typed. The programs end with exit code 4.
class InternalError : public std::logic_error {
 public:
  using std::logic_error::logic_error;
};

/// The world outside failed: a file, a disk, a port. Caught in app, shown as a problem, exit code 3.
class WorldError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

[[noreturn]] void assertion_failed(const char* condition, const char* file, int line, const std::string& values);

}  // namespace fettle

/// Stays on in release builds. `values` is a std::string with the values that broke it.
#define FETTLE_ASSERT(condition, values)                                         \
  do {                                                                           \
    if (!(condition)) {                                                          \
      ::fettle::assertion_failed(#condition, __FILE__, __LINE__, (values));      \
    }                                                                            \
  } while (false)
