#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "base/message.h"

namespace fettle {

/// What is wrong at one code point of a typed text. Becomes a Problem once the text's place is known.
struct TextFault {
  std::string code;
  std::size_t at;
  std::vector<Argument> arguments;
};

}  // namespace fettle
