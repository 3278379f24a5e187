#pragma once

#include <optional>
#include <vector>

#include "catalogue/mistakes.h"
#include "form/shape_screen.h"

namespace fettle {

/// From which chance of a mistake on a reading is asked again. Common practice, no source: asking costs one reading; a mistake that is found
/// later costs its part once more, about five readings with the gauge set afresh. docs/NUMBERS, "Mistakes of hands".
inline constexpr double kAskFrom = 0.2;

/// One way in which a hand may have come to a figure. Figures in the unit of the forecast, positive the way it counts.
struct SupposedMistake {
  const MistakeKind* kind;
  double prior;                 ///< how often, as a share
  std::optional<double> meant;  ///< definite: what would have been read
  double scale;                 ///< spread: one standard deviation
  int toward;                   ///< spread: +1 more, −1 less than right, 0 either
};

/// What one reading may be, all ways together.
struct WeighedReading {
  double log_odds;  ///< of a mistake against an honest reading
  double expected;  ///< an honest reading, given everything else
  double expected_sd;
  std::vector<std::pair<const MistakeKind*, double>> by_kind;  ///< share of each kind among mistakes, commonest first

  [[nodiscard]] double chance() const;  ///< that it is a mistake
};

/// ln of the reading's density if it came of this mistake, without its prior. Definite: the forecast's density at what was meant. Spread:
/// the forecast's own spread with that of the mistake: N(r; 0, s² + τ²), one-sided twice that times Φ(±r τ / (s √(s² + τ²))).
/// Source: azzalini1985 (the sum of a normal and a half-normal error).
[[nodiscard]] double log_density_of(const SupposedMistake& mistake, const Forecast& forecast, double value);

/// Weighs a reading as honest and as each of the mistakes. Needs a forecast that is not empty.
[[nodiscard]] WeighedReading weigh_reading(const Forecast& forecast, double value, const std::vector<SupposedMistake>& mistakes);

/// A row of a group with what hands may have done there.
struct RowInQuestion {
  RowPlace at;
  std::vector<SupposedMistake> mistakes;
  bool stands;  ///< a person said so: never asked about again
};

/// Rows that may have been read right and written down in each other's place, or under a wrong master.
struct RowsExchanged {
  const MistakeKind* kind;
  double prior;
  std::vector<std::pair<RowPlace, double>> shifts;  ///< row, and how much more it would have shown, µm; of one part unless the kind reaches a setting
};

/// Readings of a group, and every mistake that is thought of.
struct GroupInQuestion {
  const ShapeKnowledge& knowledge;
  const ShapeRows& rows;
  ShapeFreedom freedom;
  std::vector<RowInQuestion> in_question;
  std::vector<RowsExchanged> exchanges;
};

/// What is asked again: a row, or rows that seem exchanged.
struct AskedRows {
  std::vector<RowPlace> rows;
  const MistakeKind* kind;  ///< the likeliest
  double chance;            ///< that it is a mistake, of whatever kind
  double expected;          ///< of the first row, µm
  double expected_sd;
  std::vector<std::pair<const MistakeKind*, double>> by_kind;
};

/// Over a finished job: the likeliest mistake first, then what is left once that row is worth little, up to `kMostAsked`. A row is weighed
/// by a fit in which it is worth little itself; every other explanation of the same oddness takes its share of the chance.
[[nodiscard]] std::vector<AskedRows> ask_group(const GroupInQuestion& from);
inline constexpr std::size_t kMostAsked = 6;

/// As a reading arrives: whether this row is asked about; nothing if it need not be. `open`: rows that were asked about and not answered.
/// Exchanges count if they touch the row.
[[nodiscard]] std::optional<AskedRows> ask_arriving(const GroupInQuestion& from, const RowPlace& row, const std::vector<RowPlace>& open);

}  // namespace fettle
