#pragma once

#include <array>
#include <cstddef>

// The columns of readings.csv, in the order in which they are written.
namespace fettle::reading_columns {

enum Column : std::size_t {
  kPart, kStation, kDirection, kReading, kUnit, kSetting, kRound, kOrder, kRepeat, kTemperature, kFlag, kNote, kWho, kWhen, kColumns
};
inline constexpr std::array<const char*, kColumns> kNames = {"part",   "station", "direction",   "reading", "unit", "setting", "round",
                                                             "order",  "repeat",  "temperature", "flag",    "note", "who",     "when"};

}  // namespace fettle::reading_columns
