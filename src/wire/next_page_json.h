#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace fettle {

// What to read next, in words, see docs/HTTP.md.

struct NextPage {
  struct Place {
    std::string part;
    std::string station;
    std::string direction;
    std::int64_t setting;  ///< which of the fresh ones, from 1
    std::int64_t times;
    std::string words;
  };
  struct Act {
    std::string sort;
    std::string what;
    std::string time;
    std::string settles;              ///< in words
    std::string chance;               ///< parts that it settles, on the average, two decimals
    std::string minutes;              ///< one decimal
    std::string setting;              ///< the last one that the parts were read under
    std::vector<Place> places;
    std::optional<std::string> why;   ///< it is useless
  };
  struct Advice {
    std::optional<std::string> part;  ///< nothing: all open parts of the kind together
    std::string kind;
    std::string name;
    std::string doubt;
    std::vector<Act> acts;
    std::vector<Act> useless;
  };
  std::string job;
  std::int64_t position;
  std::string head;
  std::vector<Advice> groups;
  std::vector<Advice> parts;
  std::vector<std::string> notes;
};

/// next.schema.json
[[nodiscard]] std::string next_page_json(const NextPage& page);

}  // namespace fettle
