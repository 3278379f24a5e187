#pragma once

#include <cstddef>
#include <optional>
#include <vector>

namespace fettle {

/// What a closing zero that differs from the opening one does to the k-th of n readings under the setting. The difference may be
/// a drift (linear) or a knock (a step at an unknown moment); the end alone cannot tell, so the estimate is shifted by the drift
/// line and the doubt has the covariance d²·(min(k,k')/n − k·k'/n²) of a step that is as likely anywhere. That is a random walk
/// tied down at both ends; it is built from its middle outward (reference key levy1948), so that every reading rests on few of n
/// independent steps and the whole stays linear in named sources. Exact for every n.
class ClosingZero {
 public:
  /// `difference_mm`: how much larger the master seems at the end. `readings`: how many were taken in between, at least 1.
  ClosingZero(double difference_mm, std::size_t readings);

  /// Standard uncertainty of each step, mm.
  [[nodiscard]] double step_uncertainty_mm() const;
  /// What the drift line takes off the k-th reading, k from 1 to n, mm.
  [[nodiscard]] double drift_mm(std::size_t k) const;

  struct Step {
    std::size_t number;  ///< below n
    double coefficient;
  };
  /// The steps that the k-th reading rests on: at most log₂ n + 1 of them, none for the last.
  [[nodiscard]] std::vector<Step> steps(std::size_t k) const;
  /// Where the order is not known: no line is drawn; each reading carries |d|/√2, the root mean square of a step that comes before
  /// or after it with even odds.
  [[nodiscard]] static double unordered_uncertainty_mm(double difference_mm);

 private:
  double difference_mm_;
  std::size_t readings_;
};

}  // namespace fettle
