#pragma once

namespace fettle {

/// What a wrong decision costs, in any one currency.
struct WrongCosts {
  double pass;  ///< to pass what is bad
  double fail;  ///< to fail what is good
};

/// The chance that a chance is at least `level`, or at most 1 − level, once an act has explained `explained` (0 to 1) of the variance of the
/// margin behind it. The margin counts as normal with the chance that is stated now, whatever its real law, so that what is foretold agrees
/// with what is shown: before the act 0 or 1, as the chance says. Level above 1/2. Source: raiffa1961, chapter 5 (preposterior analysis of a
/// normal mean). Kept by Settling.*.
[[nodiscard]] double chance_settled(double chance, double explained, double level);

/// What the better of the two decisions costs on the average at this chance.
[[nodiscard]] double cost_of_deciding(double chance, const WrongCosts& costs);

/// The same after such an act, averaged over what it may show. To about 0.1 % of the dearer mistake.
[[nodiscard]] double cost_after(double chance, double explained, const WrongCosts& costs);

}  // namespace fettle
