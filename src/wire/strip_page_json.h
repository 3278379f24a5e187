#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace fettle {

// Taking an engine apart in words, see docs/HTTP.md.

struct StripPage {
  struct Line {
    std::string step;
    std::string act;
    std::string state;
    std::string what;
    std::string why;
    std::string words;                 ///< how far
    std::vector<std::string> before;   ///< what makes it impossible
    std::vector<std::string> cautions;
    std::vector<std::string> order;    ///< of loosening
    std::vector<std::string> parts;
    std::optional<std::string> next;   ///< part whose turn it is
    std::optional<std::string> event;  ///< of the answer that stands
  };
  struct Group {
    std::string kind;
    std::string name;
    std::vector<std::string> parts;
    std::string step;                  ///< standard, offset, unknown or mixed
    std::optional<std::string> offset;
    std::string seen;
  };
  struct Ready {
    std::string state;
    std::string name;
    std::string words;                 ///< for how many parts, and when last
    std::int64_t parts;
  };
  std::string job;
  std::string name;
  std::int64_t position;
  std::string unit;                    ///< lengths of this job
  std::string head;                    ///< how many are answered
  std::optional<std::string> worry;
  std::optional<std::string> next;     ///< step
  std::vector<std::string> warnings;   ///< what was read without being made ready
  std::vector<Line> lines;
  std::vector<Group> groups;
  std::vector<Ready> ready;
};

/// strip.schema.json
[[nodiscard]] std::string strip_page_json(const StripPage& page);

/// What is asked about an engine that is new, and what follows from the answers so far.
struct EnginePlanPage {
  struct Choice {
    std::string id;
    std::string name;
  };
  struct Question {
    std::string id;
    std::string name;
    std::vector<Choice> choices;      ///< none: a count
    std::int64_t least;
    std::int64_t most;
    std::string answer;
    std::int64_t count;               ///< the answer as a number; 0 of words
  };
  struct Group {
    std::string kind;
    std::string name;
    std::int64_t parts;
    std::int64_t places;
  };
  std::vector<Question> questions;    ///< that play a part with these answers
  std::string head;
  std::vector<Group> groups;
};

/// engine-plan.schema.json
[[nodiscard]] std::string engine_plan_json(const EnginePlanPage& page);

}  // namespace fettle
