#pragma once

#include <string>

#include "cli/commands.h"
#include "text/sentence.h"

namespace fettle {

/// What `fettle kinds` was asked for.
struct KindsAsked {
  std::string kind;  ///< id of the one that is shown whole; empty: all are listed
  bool json = false;
};

/// Problems: cli.no_such_kind; cli.misspelt_kind if there is one of nearly that id.
[[nodiscard]] RunResult run_kinds(const KindsAsked& asked, Language language);

}  // namespace fettle
