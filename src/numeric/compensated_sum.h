#pragma once

#include <cmath>

namespace fettle {

/// A sum that keeps what each addition rounds off. Error at most one unit in the last place of the sum, plus 2⁻¹⁰⁴·n² times the sum of the
/// absolute values. Source: neumaier1974. Kept by Summary.* (and by the certified sets of tests/outside/statistics/strd_*.txt).
class CompensatedSum {
 public:
  void add(double value) {
    const double next = sum_ + value;
    lost_ += std::abs(sum_) >= std::abs(value) ? (sum_ - next) + value : (value - next) + sum_;
    sum_ = next;
  }
  [[nodiscard]] double value() const { return sum_ + lost_; }

 private:
  double sum_ = 0.0;
  double lost_ = 0.0;
};

}  // namespace fettle
