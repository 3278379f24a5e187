#pragma once

#include <string>

#include "cli/commands.h"
#include "text/sentence.h"

namespace fettle {

/// What `fettle thumb` was asked for; sizes as typed, empty where none is given.
struct ThumbAsked {
  std::string about;  ///< a kind of part or another thing; empty: all rules
  std::string diameter;
  std::string length;
  std::string radius;
  std::string growth;
  std::string new_size;
  bool json = false;
};

/// Problems: cli.no_thumb_rule; those of a typed length (entry.*); limits.thumb_size_not_positive.
[[nodiscard]] RunResult run_thumb(const ThumbAsked& asked, Language language);

}  // namespace fettle
