#include "numeric/variance_analysis.h"

#include <cmath>

#include "base/assertion.h"
#include "numeric/compensated_sum.h"

namespace fettle {
namespace {

/// Values as differences to a first one.
class Shifted {
 public:
  explicit Shifted(double first) : first_(first) {}
  [[nodiscard]] double mean(std::span<const double> values) const {
    CompensatedSum sum;
    for (const double value : values) {
      FETTLE_ASSERT(std::isfinite(value), "a value that is not finite");
      sum.add(value - first_);
    }
    return sum.value() / static_cast<double>(values.size());
  }
  /// Σ(x − mean)², what rounding left of the mean taken off.
  [[nodiscard]] double squares(std::span<const double> values, double mean) const {
    CompensatedSum rest;
    CompensatedSum squares;
    for (const double value : values) {
      const double off = (value - first_) - mean;
      rest.add(off);
      squares.add(off * off);
    }
    return squares.value() - rest.value() * rest.value() / static_cast<double>(values.size());
  }

 private:
  double first_;
};

double mean_of(std::span<const double> values) { return Shifted(0.0).mean(values); }
double squares_of(std::span<const double> values) { return Shifted(0.0).squares(values, mean_of(values)); }

}  // namespace

double VarianceLine::mean_square() const {
  FETTLE_ASSERT(degrees_of_freedom > 0.0, "a mean square without degrees of freedom");
  return sum_of_squares / degrees_of_freedom;
}

OneWayVariance one_way_variance(std::span<const std::vector<double>> groups) {
  FETTLE_ASSERT(groups.size() > 1 && !groups.front().empty(), std::to_string(groups.size()));
  const Shifted shifted(groups.front().front());
  const double k = static_cast<double>(groups.size());
  double all = 0.0;
  double squared_counts = 0.0;
  CompensatedSum total;
  CompensatedSum within;
  std::vector<double> means;
  for (const std::vector<double>& group : groups) {
    FETTLE_ASSERT(!group.empty(), "an empty group");
    const double n = static_cast<double>(group.size());
    means.push_back(shifted.mean(group));
    within.add(shifted.squares(group, means.back()));
    total.add(n * means.back());
    all += n;
    squared_counts += n * n;
  }
  FETTLE_ASSERT(all > k, "no group has two values");
  const double grand = total.value() / all;
  CompensatedSum between;
  for (std::size_t g = 0; g < groups.size(); ++g) {
    between.add(static_cast<double>(groups[g].size()) * (means[g] - grand) * (means[g] - grand));
  }
  return {{between.value(), k - 1.0}, {within.value(), all - k}, (all - squared_counts / all) / (k - 1.0)};
}

CrossedVariance crossed_variance(const CrossedValues& from) {
  const auto [rows, columns, repeats, values] = from;
  FETTLE_ASSERT(rows > 1 && columns > 1 && repeats > 1 && values.size() == rows * columns * repeats, std::to_string(values.size()));
  const Shifted shifted(values.front());
  std::vector<double> cells;  // means, by row and column
  CompensatedSum within;
  for (std::size_t cell = 0; cell < rows * columns; ++cell) {
    const std::span<const double> own = std::span(values).subspan(cell * repeats, repeats);
    cells.push_back(shifted.mean(own));
    within.add(shifted.squares(own, cells.back()));
  }
  std::vector<double> row_means;
  for (std::size_t r = 0; r < rows; ++r) row_means.push_back(mean_of(std::span(cells).subspan(r * columns, columns)));
  std::vector<double> column_means;
  for (std::size_t c = 0; c < columns; ++c) {
    std::vector<double> column;
    for (std::size_t r = 0; r < rows; ++r) column.push_back(cells[r * columns + c]);
    column_means.push_back(mean_of(column));
  }
  const double grand = mean_of(row_means);
  CompensatedSum interaction;
  for (std::size_t r = 0; r < rows; ++r) {
    for (std::size_t c = 0; c < columns; ++c) {
      const double off = (cells[r * columns + c] - row_means[r]) - (column_means[c] - grand);
      interaction.add(off * off);
    }
  }
  const auto number = [](std::size_t count) { return static_cast<double>(count); };
  return {{number(columns * repeats) * squares_of(row_means), number(rows - 1)},
          {number(rows * repeats) * squares_of(column_means), number(columns - 1)},
          {number(repeats) * interaction.value(), number((rows - 1) * (columns - 1))},
          {within.value(), number(rows * columns * (repeats - 1))}};
}

}  // namespace fettle
