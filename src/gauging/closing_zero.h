#pragma once

#include <cstddef>
#include <optional>
#include <vector>

namespace fettle {

/// What a closing zero that differs from the opening one does to the k-th of n readings under the setting. The difference may be
/// a drift (linear) or a knock (a step at an unknown moment); the end alone cannot tell, so the estimate is shifted by the drift
/// line and the doubt has the covariance d²·(min(k,k')/n − k·k'/n²) of a step that is as likely anywhere. It is written as a sum
/// over independent steps, each of standard uncertainty |d|/√steps, so that it stays linear in named sources.
class ClosingZero {
 public:
  /// `difference_mm`: how much larger the master seems at the end. `readings`: how many were taken in between, at least 1.
  ClosingZero(double difference_mm, std::size_t readings);

  [[nodiscard]] std::size_t steps() const { return steps_; }
  /// Standard uncertainty of each step, mm.
  [[nodiscard]] double step_uncertainty_mm() const;
  /// What the drift line takes off the k-th reading, k from 1 to n, mm.
  [[nodiscard]] double drift_mm(std::size_t k) const;
  /// Coefficient of each step in the k-th reading. Above 64 readings, neighbours share a step: their covariance is off by at most
  /// d²/64.
  [[nodiscard]] std::vector<double> coefficients(std::size_t k) const;
  /// Where the order is not known: no line is drawn; each reading carries |d|/√2, the root mean square of a step that comes before
  /// or after it with even odds.
  [[nodiscard]] static double unordered_uncertainty_mm(double difference_mm);

 private:
  double difference_mm_;
  std::size_t readings_;
  std::size_t steps_;
};

}  // namespace fettle
