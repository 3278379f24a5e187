#include "gauging/reading.h"

namespace fettle {

std::string_view flag_name(ReadingFlag flag) {
  switch (flag) {
    case ReadingFlag::none: return "";
    case ReadingFlag::deposit: return "deposit";
    case ReadingFlag::damage: return "damage";
    case ReadingFlag::mistake: return "mistake";
  }
  return "";
}

std::optional<ReadingFlag> find_flag(std::string_view name) {
  for (ReadingFlag flag : {ReadingFlag::none, ReadingFlag::deposit, ReadingFlag::damage, ReadingFlag::mistake}) {
    if (flag_name(flag) == name) return flag;
  }
  return std::nullopt;
}

}  // namespace fettle
