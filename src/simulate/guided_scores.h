#pragma once

#include <optional>
#include <string>
#include <vector>

#include "simulate/reliability.h"
#include "simulate/score.h"

namespace fettle {

/// How things stand after some visits to an engine, as the model has them.
struct GuidedState {
  std::optional<double> chance;  ///< that all limits are kept; none where the model states none
  bool guarded_passes;           ///< what counts then
  std::size_t readings;
  std::size_t settings;
  double worth;                  ///< what the next visit would save of the cost of a wrong decision in a minute; 0: there is none
};

/// The same as a notebook has it: means of readings against limits.
struct NotebookState {
  bool equal_passes;
  bool equal_fails;
  std::size_t readings;
  std::size_t settings;
  double nearest_um;  ///< how far the reading that decides is from its limit
};

/// One engine, visited until nothing is worth it: state 0 is after the first round.
struct GuidedOutcome {
  bool good;
  std::vector<GuidedState> guided;
  std::vector<NotebookState> notebook;
};

/// What guidance brings at one price of a minute.
struct GuidedScores {
  std::string family;
  std::string hand;
  std::size_t engines;
  double price;                      ///< of a minute, in the currency of the costs: a visit is made while it saves more
  double first_readings;             ///< mean of the first round
  double more_readings;              ///< mean beyond them, as a share of them
  double more_settings;              ///< mean
  std::optional<Scattered> before;   ///< loss over that of the better notebook rule after the first round
  std::optional<Scattered> after;    ///< ... with guidance, over the same
  std::optional<Scattered> notebook; ///< ... of the better notebook rule that reads what is nearest its limit again, with no more readings
  double notebook_more_readings;
  std::optional<Reliability> chances;  ///< after guiding
};

/// How far chances after guiding can be taken at their word under one hand, over the engines of all families in which a verdict is at stake.
struct GuidedHand {
  std::string hand;
  double price;
  std::optional<Reliability> chances;
};

/// Scores at one price. The notebook goes on while the reading that decides is nearer to its limit than a band, as wide as makes it take as many
/// readings as guidance did; the better for it of both tie rules.
[[nodiscard]] GuidedScores guided_scores(const std::string& family, const std::string& hand, const std::vector<GuidedOutcome>& outcomes, Costs costs,
                                         double price);

/// What the model states after guiding at one price, and what came true; engines without a chance left out.
[[nodiscard]] std::vector<StatedChance> chances_after_guiding(const std::vector<GuidedOutcome>& outcomes, double price);

/// The lowest price, in steps of a tenth of itself, at which the mean over all these families of readings taken beyond the first round is at
/// most `share` of that round.
[[nodiscard]] double price_for(const std::vector<std::vector<GuidedOutcome>>& families, double share);

}  // namespace fettle
