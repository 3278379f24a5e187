#include "form/shape_rows.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "form/rounded_repeats.h"
#include "numeric/triangular.h"

namespace fettle {
namespace {

constexpr std::string_view kRounding = "rounding";
constexpr double kMicrometresPerMillimetre = 1000.0;
constexpr double kNegligibleUm2 = 0.02 * 0.02;
constexpr double kLeastNoiseUm2 = 1e-6;  // readings without any stated error still leave a definite matrix
const double kStepPerSd = std::sqrt(12.0);

/// A row before it is known which of its sources others share.
struct Draft {
  ShapeRow row;
  double value_um;
  double own_um2;              ///< variance of the sources that are this row's alone
  std::map<std::size_t, double> shared;  ///< source -> coefficient · sd, µm
};

class Rows {
 public:
  Rows(const SizeSet& set, const ShapeOrigin& origin) : set_(set), origin_(origin) {}

  ShapeRows make(const std::vector<std::string>& parts, const std::vector<std::size_t>& named) {
    draft_all(parts);
    ShapeRows out{{}, {}, 0, named, 0.0, 0.0};
    sort_sources(parts.size(), named);
    const std::vector<std::vector<double>> columns = common_columns();
    out.error_columns = columns.size() + named.size();
    for (std::size_t part = 0; part < parts.size(); ++part) add_block(part, columns, named, out);
    const std::vector<double> average = average_errors(out);
    out.stated_shift_um = std::sqrt(dot(average, average));
    return out;
  }

 private:
  [[nodiscard]] double sd_um(const ErrorTerm& term) const {
    return term.coefficient * set_.sources[term.source].standard_uncertainty * kMicrometresPerMillimetre;
  }

  void draft_all(const std::vector<std::string>& parts) {
    std::map<std::string, std::size_t> index;
    for (std::size_t p = 0; p < parts.size(); ++p) index.emplace(parts[p], p);
    std::map<std::tuple<std::size_t, std::size_t, std::string>, std::vector<const Size*>> by_row;
    for (const Size& size : set_.sizes) {
      const auto part = index.find(size.part);
      if (part == index.end()) continue;
      by_row[{part->second, size.cell, size.setting}].push_back(&size);
    }
    for (const auto& [key, sizes] : by_row) {
      drafts_.push_back(draft(std::get<0>(key), sizes));
    }
  }

  [[nodiscard]] bool is_of_reading(const ErrorTerm& term) const { return set_.sources[term.source].scope == ErrorScope::reading; }

  Draft draft(std::size_t part, const std::vector<const Size*>& sizes) const {
    Draft out{{part, sizes.front()->cell, sizes.front()->setting, {}, {}}, 0.0, 0.0, {}};
    const double n = static_cast<double>(sizes.size());
    std::map<std::size_t, double> coefficients;
    std::vector<double> values;
    double repeat_um2 = 0.0;    // of one reading
    double rounding_um2 = 0.0;
    for (const Size* size : sizes) {
      out.row.readings.push_back(size->reading);
      values.push_back(origin_.to_um(size->estimate));
      out.value_um += values.back() / n;
      for (const ErrorTerm& term : size->terms) {
        coefficients[term.source] += term.coefficient / n;
        if (!is_of_reading(term)) continue;
        const double variance = sd_um(term) * sd_um(term);
        (set_.sources[term.source].component == kRounding ? rounding_um2 : repeat_um2) += variance / n;
      }
    }
    const double step = kStepPerSd * std::sqrt(rounding_um2);
    const bool coarse = sizes.size() > 1 && repeat_um2 > 0.0 && std::sqrt(repeat_um2) < step / 2.0;
    if (coarse) {
      const RoundedMean moments = rounded_mean(values, std::sqrt(repeat_um2), step);
      out.value_um = moments.mean;
      out.own_um2 = moments.variance;
    } else {
      out.own_um2 = (repeat_um2 + rounding_um2) / n;
    }
    for (const auto& [source, coefficient] : coefficients) {
      out.row.terms.push_back({source, coefficient});
      if (!is_of_reading({source, coefficient})) out.shared[source] = origin_.sign * sd_um({source, coefficient});
    }
    return out;
  }

  /// Which sources several parts share.
  void sort_sources(std::size_t parts, const std::vector<std::size_t>& named) {
    std::map<std::size_t, std::set<std::size_t>> users;
    for (const Draft& draft : drafts_) {
      for (const auto& [source, coefficient] : draft.shared) users[source].insert(draft.row.part);
    }
    for (const auto& [source, by] : users) {
      if (std::find(named.begin(), named.end(), source) != named.end()) continue;
      if (parts == 1 || by.size() > 1) common_.push_back(source);
    }
  }

  /// Columns over all drafts whose products give the covariance of the common sources, fewest first: pivoted Cholesky, as the sources
  /// are many (a closing zero has one for each reading) and what they do to different parts is nearly one thing. What is left over goes to
  /// the noise of each row by itself.
  std::vector<std::vector<double>> common_columns() {
    const std::size_t n = drafts_.size();
    std::vector<double> gain(n * common_.size(), 0.0);
    std::vector<double> left(n, 0.0);
    for (std::size_t i = 0; i < n; ++i) {
      for (std::size_t s = 0; s < common_.size(); ++s) {
        const auto found = drafts_[i].shared.find(common_[s]);
        if (found != drafts_[i].shared.end()) gain[i * common_.size() + s] = found->second;
      }
      const std::span<const double> row = std::span(gain).subspan(i * common_.size(), common_.size());
      left[i] = dot(row, row);
    }
    std::vector<std::vector<double>> columns;
    while (columns.size() < common_.size()) {
      const auto pivot = static_cast<std::size_t>(std::max_element(left.begin(), left.end()) - left.begin());
      if (n == 0 || left[pivot] <= kNegligibleUm2) break;
      std::vector<double> column(n);
      const double root = std::sqrt(left[pivot]);
      for (std::size_t i = 0; i < n; ++i) {
        double covariance = dot(std::span<const double>(gain).subspan(i * common_.size(), common_.size()),
                                std::span<const double>(gain).subspan(pivot * common_.size(), common_.size()));
        for (const std::vector<double>& before : columns) covariance -= before[i] * before[pivot];
        column[i] = covariance / root;
      }
      for (std::size_t i = 0; i < n; ++i) left[i] = std::max(left[i] - column[i] * column[i], 0.0);
      columns.push_back(std::move(column));
    }
    for (std::size_t i = 0; i < n; ++i) drafts_[i].own_um2 += left[i];
    return columns;
  }

  void add_block(std::size_t part, const std::vector<std::vector<double>>& columns, const std::vector<std::size_t>& named,
                 ShapeRows& out) const {
    std::vector<std::size_t> mine;
    for (std::size_t i = 0; i < drafts_.size(); ++i) {
      if (drafts_[i].row.part == part) mine.push_back(i);
    }
    const std::size_t n = mine.size();
    BlockRows block{{}, {}, std::vector<double>(n * n, 0.0), {}};
    std::vector<ShapeRow> rows;
    for (std::size_t i = 0; i < n; ++i) {
      const Draft& draft = drafts_[mine[i]];
      rows.push_back(draft.row);
      block.cell.push_back(draft.row.cell);
      block.value.push_back(draft.value_um);
      block.noise[i * n + i] = std::max(draft.own_um2, kLeastNoiseUm2);
      for (const auto& column : columns) block.errors.push_back(column[mine[i]]);
      for (const std::size_t source : named) {
        const auto found = draft.shared.find(source);
        block.errors.push_back(found == draft.shared.end() ? 0.0 : found->second);
      }
    }
    for (std::size_t i = 0; i < n; ++i) {
      for (std::size_t k = 0; k < n; ++k) block.noise[i * n + k] += own_covariance(drafts_[mine[i]], drafts_[mine[k]], named);
    }
    out.blocks.push_back(std::move(block));
    out.rows.push_back(std::move(rows));
  }

  /// Of the sources that only this part rests on.
  [[nodiscard]] double own_covariance(const Draft& a, const Draft& b, const std::vector<std::size_t>& named) const {
    double sum = 0.0;
    for (const auto& [source, coefficient] : a.shared) {
      const auto other = b.shared.find(source);
      if (other == b.shared.end() || std::binary_search(common_.begin(), common_.end(), source) ||
          std::find(named.begin(), named.end(), source) != named.end()) {
        continue;
      }
      sum += coefficient * other->second;
    }
    return sum;
  }

  const SizeSet& set_;
  const ShapeOrigin& origin_;
  std::vector<Draft> drafts_;
  std::vector<std::size_t> common_;  ///< ascending
};

}  // namespace

ShapeRows shape_rows(const std::vector<std::string>& parts, const SizeSet& set, const ShapeOrigin& origin,
                     const std::vector<std::size_t>& named) {
  return Rows(set, origin).make(parts, named);
}

std::vector<double> average_errors(const ShapeRows& rows) {
  std::vector<double> average(rows.error_columns, 0.0);
  double count = 0.0;
  for (const BlockRows& block : rows.blocks) {
    for (std::size_t i = 0; i < block.value.size(); ++i) {
      add_scaled(average, 1.0, std::span(block.errors).subspan(i * rows.error_columns, rows.error_columns));
      count += 1.0;
    }
  }
  for (double& each : average) each /= count;
  return average;
}

}  // namespace fettle
