#pragma once

#include <optional>
#include <string>
#include <vector>

#include "catalogue/layout.h"

namespace fettle {

/// How a surface of this kind wears along its length. none: it has no model of wear. from_first: most at the first station, less
/// farther on (a bore, from the top ring's turning point down). both_ends: most at the first and the last, least half-way (a guide). even:
/// alike along the length (a journal).
enum class WearPattern { none, from_first, both_ends, even };

/// Why a kind has no pattern of wear, so that its figures are judged plainly. single_place: one place is read. reckoned: from the sizes of
/// its members. nothing_runs: a seat, or what sits in one. no_diameter: heights, gaps, widths or run-outs. separate_figures: of different
/// things. built_to_shape: a bore with choke, which is no straight one to begin with. not_said: a kind of somebody's own that says nothing of wear.
enum class NotWorn { single_place, reckoned, nothing_runs, no_diameter, separate_figures, built_to_shape, not_said };

/// What is known of how parts of a kind wear.
struct KindWear {
  WearPattern pattern = WearPattern::none;
  std::optional<NotWorn> why_none = {};   ///< with the pattern none only
  std::vector<std::string> unworn = {};   ///< ids of stations that count, but nothing runs on: beside a rocker. A reference never wears
  std::string origin = {};                ///< empty only where it was not said
  bool operator==(const KindWear&) const = default;
};

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
  KindWear wear = {};
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
