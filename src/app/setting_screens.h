#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/gauge_state.h"
#include "app/set_gauge.h"

namespace fettle {

/// Everything that the screens of setting a gauge show.
struct SettingScreens {
  const Gauge* gauge;
  std::string what_for;
  std::string setting;                       ///< id for the new setting: never used in this job
  PartOnBench part;                          ///< the part, or one that stands for its kind
  std::optional<Length> wanted;              ///< nothing: see problems
  std::vector<const Gauge*> masters;         ///< that could lend it
  const Gauge* master;                       ///< null: nobody chose one, and there is not just one
  std::optional<Length> zero_error;          ///< of a micrometer as master, where it was recorded
  std::optional<NeedleSide> pressed_in;
  std::optional<SettingUp> up;               ///< nothing: see problems
  Problems problems;                         ///< what keeps a screen from being filled
  const Kept<Setting>* last;                 ///< the last of this gauge on a master; null: none
};

/// Problems that leave nothing to show: app.set_unknown_gauge, app.set_for_unknown, app.set_not_a_comparison. All others stand beside what
/// could be filled; also app.set_no_kit: what rods the gauge has is not known.
[[nodiscard]] Result<SettingScreens> setting_screens(const RecordedJob& recorded, const SetGaugeAsked& asked);

/// What the needle's place says in the proof of a setting.
enum class ProofOutcome { right, reversed, half, twice, other };
[[nodiscard]] std::string_view proof_outcome_name(ProofOutcome outcome);

struct ProofAsked {
  SetGaugeAsked setting;
  std::string shows;                 ///< as typed, in divisions
  std::optional<NeedleSide> side;    ///< where the needle stands; nothing: the text says it, or it is zero
};

struct ProofFound {
  ProofOutcome outcome;
  NeedleProof proof;
  Length division;
  NeedleSide pressed_in;
};

/// Which of the four places of the proof the needle is within two divisions of, seen round the dial without counting turns; the right one
/// first. Problems: those of set_gauge and of the typed text; app.proof_none (this master and gauge have no proof).
[[nodiscard]] Result<ProofFound> prove_setting(const Job& job, const ProofAsked& asked);

}  // namespace fettle
