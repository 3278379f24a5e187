#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace fettle {

// One engine on one screen in words, see docs/HTTP.md.

struct EnginePage {
  struct Part {
    std::string id;
    std::string name;
    std::string measured;
    std::string judged;
    std::string line;
  };
  struct Group {
    std::string kind;
    std::string name;
    std::string state;
    std::string words;
    std::vector<Part> parts;
  };
  struct Gauge {
    std::string id;
    std::string name;
    std::string words;
  };
  struct Limit {
    std::string id;
    std::string kind;
    std::string definition;
    std::string role;
    std::string side;
    std::string bound;
    std::string origin;
    bool rule_of_thumb;
  };
  struct Seen {
    std::string part;
    std::string words;
  };
  std::string job;
  std::string name;
  std::string line;
  std::int64_t position;
  std::string unit;
  std::optional<std::string> decimal_mark;  ///< point or comma; nothing: the job states none
  std::vector<std::string> facts;
  std::string head;
  std::optional<std::string> worry;
  std::optional<Seen> read_next;
  std::vector<Group> groups;
  std::vector<Gauge> gauges;
  std::vector<Limit> limits;
  std::vector<Seen> findings;
};

/// engine.schema.json
[[nodiscard]] std::string engine_page_json(const EnginePage& page);

struct ActsDonePage {
  struct Act {
    std::string event;
    std::string at;
    std::string who;
    std::string words;
    bool standing;
  };
  std::vector<Act> events;
};

/// acts-done.schema.json
[[nodiscard]] std::string acts_done_json(const ActsDonePage& page);

}  // namespace fettle
