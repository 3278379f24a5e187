#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "cli/commands.h"
#include "cli/world.h"
#include "text/sentence.h"

namespace fettle {

struct ServeAsked {
  std::string record;
  std::uint16_t port = 8420;
  std::string open_to;
  std::string certificate;
  std::string key;
  std::vector<std::string> names;
  std::vector<std::string> gauges;
};

/// Serves until the person ends it.
[[nodiscard]] RunResult run_serve(const ServeAsked& asked, Language language, const World& world);

}  // namespace fettle
