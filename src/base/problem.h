#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/message.h"

namespace fettle {

/// Where in what a person wrote. Lines and columns count from 1; a column counts characters, not bytes.
struct Place {
  std::string file;
  std::optional<int> line;
  std::optional<int> column;
  bool operator==(const Place&) const = default;
  auto operator<=>(const Place&) const = default;
};

/// Something a person can put right. `code` is listed in docs/ERRORS.md; the text files hold `problem.<code>` (what is
/// wrong) and `problem.<code>.do` (what to do), both fed with `arguments`.
struct Problem {
  std::string code;
  Place place;
  std::vector<Argument> arguments;
  bool operator==(const Problem&) const = default;
};

using Problems = std::vector<Problem>;

/// Sorts by place, then code, so that the same input gives the same list whatever order the checks ran in.
void sort_by_place(Problems& problems);

}  // namespace fettle
