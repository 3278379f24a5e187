#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "entry/typed_quantity.h"
#include "wire/bench_page_json.h"
#include "wire/border_json.h"

namespace fettle {

// Gauges and how to set them, in words, see docs/HTTP.md.

/// A setting as the strip above a round has it.
struct SettingStrip {
  std::string id;
  std::string words;
  std::optional<std::int64_t> age_minutes;
  bool stale;
  std::optional<std::string> why_stale;
};

struct GaugePage {
  struct Setting {
    SettingStrip strip;
    std::string zero_words;
    std::string round;
  };
  struct Gauge {
    std::string id;
    std::string name;
    std::string sort;
    std::string unit;
    std::string words;
    bool usable;
    std::optional<std::string> why_not;
    std::optional<Setting> setting;
    bool suits = false;  ///< it is what one takes for the place or part that was asked for; another that can read it is usable all the same
  };
  std::vector<Gauge> gauges;
  std::vector<PresetChoice> suits = {};  ///< sorts of gauges for the place or part that was asked for, the usual one first
};

/// gauge-page.schema.json
[[nodiscard]] std::string gauge_page_json(const GaugePage& page);

struct SettingPage {
  struct Master {
    std::string id;
    std::string name;
  };
  struct Rods {
    std::string sentence;
    std::vector<std::string> lines;
    std::string picture;
  };
  struct SetTo {
    std::string digits;
    std::string unit;
    std::string sentence;
    std::string picture;
    std::optional<std::string> tolerance;
    std::optional<std::string> really;  ///< what the master is where it was really locked
  };
  struct Zeros {
    int times;
    int apart;
    std::string sentence;
    std::vector<std::string> lines;
  };
  struct Sense {
    std::optional<std::string> known;
    std::string sentence;
    std::string picture;
  };
  struct Pointers {
    std::string picture;
    std::vector<std::string> lines;
  };
  struct SameAsLast {
    std::vector<std::string> lines;
    std::string set;
    std::string master;
    std::optional<std::string> wanted;  ///< as it was typed
  };
  std::string gauge;
  std::string what_for;
  std::string setting;
  std::vector<Master> masters;
  std::optional<std::string> master;
  std::optional<std::string> wanted;
  std::vector<SaidProblem> problems;
  std::optional<Rods> rods;
  std::optional<SetTo> set_to;
  Zeros zeros;
  Sense sense;
  std::optional<std::string> proof;
  std::optional<Pointers> pointers;
  std::optional<SameAsLast> same_as_last;
  std::vector<std::string> cautions;
};

/// setting-page.schema.json
[[nodiscard]] std::string setting_page_json(const SettingPage& page);

/// What POST .../proof brings.
struct ProofBody {
  std::string gauge;
  std::string what_for;
  std::optional<std::string> master;
  std::optional<std::string> size;
  std::optional<std::string> set;
  std::string shows;
  std::optional<NeedleSide> side;
};

/// Problems: those of json_line.h, wire.* of a member that is missing, unknown or of another kind.
[[nodiscard]] Result<ProofBody> read_proof_body(const std::string& body);

/// proof.schema.json
[[nodiscard]] std::string proof_json(const std::string& outcome, const std::string& sentence);

}  // namespace fettle
