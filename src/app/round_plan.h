#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/gauge_state.h"
#include "app/judge_job.h"
#include "app/round_hands.h"
#include "app/zero_moved.h"

namespace fettle {

/// How far something is that has to be measured. asked_again: what was read there is all set aside, or does not fit the rest.
enum class MeasuredState { to_do, begun, read, asked_again };

[[nodiscard]] std::string_view measured_state_name(MeasuredState state);

struct RoundReading {
  const Kept<Reading>* reading;
  std::string who;                   ///< who read it
  std::optional<Ratio> as_measured;  ///< nothing: left out, or the job cannot be reckoned
  bool suspect;
};

/// One place of a part, and what was read there.
struct RoundPlace {
  std::size_t station;
  std::size_t direction;
  std::size_t cell;
  std::size_t wanted;  ///< readings
  MeasuredState state;
  std::vector<RoundReading> readings;  ///< as they came
  std::optional<std::size_t> hand;     ///< of RoundPlan::hands, what it is read with; nothing: no gauge was set for it yet
};

/// What a second person read beside the first, at one place. Counts.
struct ReadTwice {
  std::size_t place;  ///< of RoundPlan::places
  Ratio other;
  Ratio own;
  std::optional<Ratio> apart;  ///< of lengths: how far, above nothing
  bool far;                    ///< farther than RoundPlan::usual_apart
};

struct RoundAsked {
  std::string part;
  std::optional<std::string> setting;  ///< nothing: as hands_of finds
  std::optional<std::string> round;    ///< nothing: the open one, or a new one
  bool second;                         ///< a pass of its own by `asking.who`, who sees nothing of the others' until it is done
  Asking asking;
  std::optional<std::string> place = {};  ///< "station/direction" that the setting was chosen for
};

/// The measuring of one part, place by place in the order the hand moves.
struct RoundPlan {
  PartOnBench part;
  std::size_t number;                  ///< which of its kind, from 1 ...
  std::size_t count;                   ///< ... of how many
  std::vector<RoundHand> hands;        ///< what its places are read with
  std::optional<GaugeNow> gauge;       ///< of the setting that was asked for, else of the place whose turn it is
  std::optional<SettingNow> setting;
  std::string round;
  bool closed;                         ///< the setting is; going on needs a new one
  std::vector<RoundPlace> places;
  std::optional<std::size_t> next;     ///< place whose turn it is; nothing: all are read
  bool zero_wanted;                    ///< nothing of this kind is left to read under the open setting
  bool temperatures_wanted;
  std::optional<ZeroMoved> zero_moved; ///< of this setting, or of the one before it; while it has places to read again, no zero is asked for
  std::optional<Ratio> repeats_apart;  ///< most that repeats of one place by one person lie apart, counts
  std::optional<double> usual_apart;   ///< mm: what the gauge's repeatability makes usual for two readings of one place
  std::vector<ReadTwice> twice;        ///< of a second pass that is done
};

/// `judged`: the job judged, or null where it cannot be. Readings of all rounds count, so that a part can be gone on with under another
/// setting; only where a round is asked for without which every place was read already, its readings alone count: it is a new pass.
/// usual_apart: 1.96·√2 times repeatability and rounding together, the repeatability limit (reference key iso5725): 95 of 100 pairs lie closer.
/// Problems: app.round_unknown_part, .round_unknown_setting, .round_nobody (a second pass by nobody).
[[nodiscard]] Result<RoundPlan> plan_round(const RecordedJob& recorded, const JudgedJob* judged, const RoundAsked& asked);

/// Every place of a part in the order the hand moves: down one axis, the gauge turned, up the next; where the directions are different
/// quantities, all of a station together.
[[nodiscard]] std::vector<std::size_t> hand_order(const Layout& layout);

/// How far a part is, over all rounds. Nothing is planned for an assembly, which is judged by what is read on its parts, until it is read itself.
struct PartProgress {
  std::size_t planned;
  std::size_t in;         ///< places with a reading that counts
  std::size_t asked_again;
  MeasuredState state;
  std::optional<std::size_t> next_cell;
};
[[nodiscard]] PartProgress progress_of(const PartOnBench& part, const Job& job, const JudgedJob* judged);

}  // namespace fettle
