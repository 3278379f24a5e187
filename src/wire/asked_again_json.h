#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace fettle {

/// Which readings look like mistakes of a hand, in words, see docs/HTTP.md. Sizes in the unit that the job shows.
struct AskedAgainPage {
  struct Reading {
    std::string event;
    std::string part;
    std::string station;
    std::string direction;
    std::string setting;
    std::string text;  ///< as typed: what an act "answer" names it by
  };
  struct Question {
    std::vector<Reading> readings;  ///< one; several that seem exchanged, or all under a setting
    std::string part_name;
    std::string place;              ///< "top · thrust" of the first
    std::string mistake;
    std::string why;                ///< why a reading is set aside: "needle side"
    std::string sentence;
    std::int64_t in_100;            ///< chance of a mistake, of whatever kind
    std::optional<std::string> shown;
    std::optional<std::string> expected;
    std::optional<std::string> expected_sd;
    std::vector<std::pair<std::string, std::int64_t>> by_kind;  ///< mistake, share in 100; greatest first
    bool put_off;
  };
  std::string job;
  std::int64_t position;  ///< where the log ends; 0 of a folder
  std::string unit;
  std::string head;
  std::vector<Question> questions;
};

/// asked-again.schema.json
[[nodiscard]] std::string asked_again_json(const AskedAgainPage& page);

}  // namespace fettle
