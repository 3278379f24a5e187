#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "entry/typed_quantity.h"

namespace fettle {

/// Why a reading is kept and left out of every size.
enum class ReadingFlag { none, deposit, damage, mistake };

/// What the gauge showed, where, as typed. Never changed: a correction is a new reading.
struct Reading {
  std::string part;
  std::string station;
  std::string direction;
  TypedQuantity quantity;
  std::string setting;
  std::string round;                              ///< one pass over the stations with one setting; may be empty
  std::optional<std::int64_t> order;              ///< counts within the round, from 1
  std::optional<std::int64_t> repeat;
  std::optional<TypedQuantity> temperature;       ///< of the part
  ReadingFlag flag;
  std::string note;
  std::optional<std::string> supersedes;          ///< event id of the reading that this one corrects
  std::optional<std::string> why = {};            ///< ... and why it does
  std::optional<std::string> read_by = {};        ///< who read the gauge, where somebody else entered what was called out
  bool operator==(const Reading&) const = default;
};

[[nodiscard]] std::string_view flag_name(ReadingFlag flag);
[[nodiscard]] std::optional<ReadingFlag> find_flag(std::string_view name);

}  // namespace fettle
