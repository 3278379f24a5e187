#pragma once

#include <optional>
#include <string>
#include <vector>

#include "catalogue/layout.h"

namespace fettle {

/// How a surface of this kind wears along its length. none: it has no model of wear. from_first: most at the first station, less
/// farther on (a bore, from the top ring's turning point down). even: alike along the length (a journal).
enum class WearPattern { none, from_first, even };

/// The state in which a part has to be while it is measured. Text keys "measured_when." + word, each with its time where it has one.
enum class MeasuredWhen {
  clean,
  rested,
  settled,
  torqued,
  clamped,
  unloaded,
  pushed_one_way,
  level,
  supported,
  closed_valves,
  top_dead_centre,
  warm_engine,
  cold_engine,
  new_mate
};

/// A place in an assembly that a part takes.
struct KindMember {
  std::string role;                ///< "bore"; text key "member." + role
  std::vector<std::string> kinds;  ///< ids of the kinds that may take it
  bool operator==(const KindMember&) const = default;
};

/// One line of advice on a kind of part: a step of measuring it, a mistake, or a caution. Its sentence has the text key list + "." + id
/// ("how.", "mistake.", "caution."); a kind of somebody's own, which has no keys, brings the sentence itself.
struct KindLine {
  std::string id;
  std::string origin;
  std::optional<std::string> text = {};
  bool operator==(const KindLine&) const = default;
};

/// What reads one station of a kind, where it is not what reads the others: a spring is pressed in a tester, its lean found with a feeler.
struct StationGauges {
  std::string station;
  std::vector<std::string> gauges;  ///< ids of gauge presets, the usual one first
  bool operator==(const StationGauges&) const = default;
};

/// A kind of part: data, not code. Bore 2 and bore 3 are parts of the kind "cylinder-bore".
struct Kind {
  std::string id;  ///< text key "kind." + id
  Feature feature;
  std::string material;  ///< id of the default material; a job may name another
  Layout layout;         ///< default places; a job may replace stations (with depths) and directions
  std::string origin;
  WearPattern wear = WearPattern::none;
  std::vector<KindMember> members = {};  ///< of an assembly: bore with piston, journal with shells and housing
  std::vector<KindLine> how = {};        ///< how to measure it, in the order of the work
  std::vector<KindLine> mistakes = {};   ///< mistakes that people make with it, and what they do to the figure
  std::vector<KindLine> cautions = {};   ///< what can hurt a person or spoil the part
  std::vector<std::string> gauges = {};        ///< ids of gauge presets that suit, the usual one first
  std::vector<MeasuredWhen> conditions = {};   ///< in the order of the work
  std::vector<StationGauges> gauges_at = {};   ///< of stations with gauges of their own
  bool operator==(const Kind&) const = default;
};

/// Kinds that belong together when an engine is taken apart. Text key "section." + id.
struct KindSection {
  std::string id;
  std::vector<std::string> kinds;  ///< in the order in which they are met
  bool operator==(const KindSection&) const = default;
};

}  // namespace fettle
