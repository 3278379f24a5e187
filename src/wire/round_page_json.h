#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "wire/setting_page_json.h"

namespace fettle {

/// The round of one part in words, see docs/HTTP.md.
struct RoundPage {
  struct Part {
    std::string id;
    std::string name;
    std::string of;
    std::string kind;
  };
  struct Gauge {
    std::string id;
    std::string name;
    std::string sort;
    std::optional<std::string> unit;  ///< of a figure that has none of its own; nothing: nobody has said it yet
    std::vector<std::string> units;   ///< that people read it in
    std::string strip;
    bool sided;
    bool halves;
    bool both_ways;                   ///< its figures have signs
  };
  /// What places are read with.
  struct Hand {
    Gauge gauge;
    SettingStrip setting;
    std::string round;
    bool closed;
    std::int64_t last_order;  ///< largest in its round under its setting, over all parts; 0: none
  };
  struct Reading {
    std::string event;
    std::string text;
    std::optional<std::string> said;
    std::string who;
    std::optional<std::string> flag;
    std::string note;
    std::optional<std::int64_t> repeat;
    std::optional<std::string> question;
  };
  struct Spot {
    std::string station;
    std::string direction;
    std::string name;
    std::string where;
    std::size_t order;
    std::size_t wanted;
    std::string state;
    std::vector<Reading> readings;
    std::string quantity;                 ///< "length"
    std::optional<std::size_t> hand;      ///< of `hands`; nothing: no gauge was set for it yet
    std::vector<std::string> suits;       ///< sorts of gauges for it, by name; only where there is no hand
  };
  struct Member {
    std::string id;
    std::string name;
  };
  struct Flag {
    std::string id;
    std::string words;
  };
  struct Holder {
    std::string who;
    std::string device;
  };
  /// The closing zero of a setting stands far from its opening one.
  struct ZeroMoved {
    struct Again {
      std::string part;
      std::string station;
      std::string direction;
      std::string words;
    };
    std::string sentence;
    std::vector<std::string> hang;  ///< which readings rest on it
    std::vector<Again> again;       ///< places that tell whether it moved early or late
  };
  std::string job;
  std::string name;
  Part part;
  std::int64_t position;
  std::optional<Gauge> gauge;
  std::optional<SettingStrip> setting;
  std::string round;
  bool closed;
  std::vector<Hand> hands;
  std::vector<Spot> places;
  std::optional<std::size_t> next;
  std::string section;  ///< SVG
  std::string plan;
  bool zero_wanted;
  std::string zero_sentence;
  std::optional<ZeroMoved> zero_moved;
  bool temperatures_wanted;
  std::vector<Member> members;          ///< of an assembly: its parts
  std::vector<std::string> conditions;  ///< in which the part is measured
  std::vector<std::string> how;
  std::vector<std::string> mistakes;
  std::vector<std::string> cautions;
  std::vector<std::string> after;
  std::vector<Flag> flags;
  std::int64_t last_order;                  ///< largest in this round under this setting, over all parts; 0: none
  std::optional<std::string> decimal_mark;  ///< of the job
  std::optional<Holder> held_by;
  std::optional<std::vector<std::string>> second;  ///< nothing: no second pass, or not done yet
};

/// round.schema.json
[[nodiscard]] std::string round_page_json(const RoundPage& page);

}  // namespace fettle
