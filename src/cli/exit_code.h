#pragma once

namespace fettle {

// What the program tells the shell.

inline constexpr int kFine = 0;
inline constexpr int kNotAllWithin = 1;
inline constexpr int kInput = 2;
inline constexpr int kWorldFailed = 3;
inline constexpr int kWeWereWrong = 4;

}  // namespace fettle
