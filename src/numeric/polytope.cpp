#include "numeric/polytope.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "numeric/normal.h"
#include "numeric/triangular.h"

namespace fettle {
namespace {

// A bound this many standard deviations away is kept (or broken) to within 1e-11.
constexpr double kCertain = 6.8;
constexpr double kInfinity = std::numeric_limits<double>::infinity();
// Of a combination's variance, what is rounding noise.
constexpr double kNoVariance = 1e-12;

using Interval = LineProblem::Interval;

double probability(const Interval& interval) {
  if (!(interval.low < interval.high)) return 0.0;
  if (interval.low == -kInfinity) return interval.high == kInfinity ? 1.0 : normal_lower(interval.high);
  if (interval.high == kInfinity) return normal_upper(interval.low);
  return normal_between(interval.low, interval.high);
}

/// Where p + q t stays within the radius.
Interval within_disc(double p0, double p1, double q0, double q1, double radius) {
  const double a = p1 * p1 + q1 * q1;
  const double b = p0 * p1 + q0 * q1;
  const double c = p0 * p0 + q0 * q0 - radius * radius;
  if (a <= 0.0) return c <= 0.0 ? Interval{-kInfinity, kInfinity} : Interval{0.0, 0.0};
  const double under = b * b - a * c;
  if (under <= 0.0) return {0.0, 0.0};
  const double root = std::sqrt(under);
  return {(-b - root) / a, (-b + root) / a};
}

Interval meet(const Interval& a, const Interval& b) { return {std::max(a.low, b.low), std::min(a.high, b.high)}; }

/// Chance of `base` without the intervals of `holes`.
double probability_without(const Interval& base, std::vector<Interval> holes) {
  std::sort(holes.begin(), holes.end(), [](const Interval& a, const Interval& b) { return a.low < b.low; });
  double sum = 0.0;
  double from = base.low;
  for (const Interval& hole : holes) {
    const Interval cut = meet(hole, base);
    if (!(cut.low < cut.high)) continue;
    if (cut.low > from) sum += probability({from, cut.low});
    from = std::max(from, cut.high);
  }
  return sum + probability({from, base.high});
}

}  // namespace

LineProblem::LineProblem(std::span<const double> mean, std::span<const double> own, std::span<const double> gain,
                         std::size_t cells, std::size_t common, const std::vector<Region>& regions)
    : common_(common) {
  add_rows(regions, mean, own, gain, cells, common);
}

namespace {

double value_of(const CellSum& sum, std::span<const double> by_cell) {
  double value = 0.0;
  for (const auto& [cell, coefficient] : sum.terms) value += coefficient * by_cell[cell];
  return value;
}

double covariance_of(const CellSum& a, const CellSum& b, std::span<const double> own, std::size_t cells) {
  double sum = 0.0;
  for (const auto& [left, by_left] : a.terms) {
    for (const auto& [right, by_right] : b.terms) sum += by_left * by_right * own[left * cells + right];
  }
  return sum;
}

}  // namespace

void LineProblem::add_rows(const std::vector<Region>& regions, std::span<const double> mean, std::span<const double> own,
                           std::span<const double> gain, std::size_t cells, std::size_t common) {
  struct Candidate {
    const CellSum* sum;
    Row row;
    double variance;  ///< given η
    double margin;    ///< in standard deviations of everything that is not known
  };
  const auto candidate = [&](const CellSum& sum, double most, std::size_t region) {
    Candidate out{&sum, {value_of(sum, mean), most, region}, covariance_of(sum, sum, own, cells), 0.0};
    double whole = out.variance;
    for (std::size_t c = 0; c < common; ++c) {
      double each = 0.0;
      for (const auto& [cell, coefficient] : sum.terms) each += coefficient * gain[cell * common + c];
      whole += each * each;
    }
    const double away = most - out.row.mean;
    out.margin = whole > 0.0 ? away / std::sqrt(whole) : (away >= 0.0 ? kInfinity : -kInfinity);
    return out;
  };
  std::vector<double> cell_sd(cells);  // of everything that is not known of a cell
  for (std::size_t c = 0; c < cells; ++c) {
    double variance = own[c * cells + c];
    for (std::size_t e = 0; e < common; ++e) variance += gain[c * common + e] * gain[c * common + e];
    cell_sd[c] = std::sqrt(std::max(variance, 0.0));
  }
  // A sum's sd is at most the sum of its terms' sds: most bounds are far enough away to need no more.
  const auto kept_for_sure_at_once = [&](const HalfSpace& half) {
    double most_sd = 0.0;
    double away = half.most;
    for (const auto& [cell, coefficient] : half.sum.terms) {
      most_sd += std::abs(coefficient) * cell_sd[cell];
      away -= coefficient * mean[cell];
    }
    return away > kCertain * most_sd;
  };
  std::vector<Candidate> kept;
  std::vector<Candidate> disc_rows;
  for (std::size_t r = 0; r < regions.size(); ++r) {
    outside_.push_back(regions[r].outside);
    asks_.push_back(false);
    bool broken = false;
    std::vector<Candidate> open;
    for (const HalfSpace& half : regions[r].half_spaces) {
      if (kept_for_sure_at_once(half)) continue;
      Candidate each = candidate(half.sum, half.most, r);
      if (each.margin > kCertain) continue;
      if (each.margin < -kCertain) broken = true;
      open.push_back(std::move(each));
    }
    std::vector<Candidate> open_discs;
    std::vector<double> radii;
    for (const Disc& disc : regions[r].discs) {
      Candidate first = candidate(disc.first, disc.radius, r);
      Candidate second = candidate(disc.second, disc.radius, r);
      const double out = std::sqrt(first.row.mean * first.row.mean + second.row.mean * second.row.mean);
      const auto whole_sd = [&](const Candidate& each) {
        return std::isfinite(each.margin) && each.margin != 0.0 ? std::abs((disc.radius - each.row.mean) / each.margin) : std::sqrt(each.variance);
      };
      const double sd = std::sqrt(whole_sd(first) * whole_sd(first) + whole_sd(second) * whole_sd(second));
      if (disc.radius - out > (kCertain + 1.0) * sd) continue;
      if (out - disc.radius > (kCertain + 1.0) * sd) broken = true;
      const double margin = sd > 0.0 ? (disc.radius - out) / sd : -kInfinity;
      first.margin = second.margin = margin;
      open_discs.push_back(std::move(first));
      open_discs.push_back(std::move(second));
      radii.push_back(disc.radius);
    }
    const bool kept_for_sure = open.empty() && open_discs.empty();
    if (regions[r].outside) {
      if (kept_for_sure) certain_ = 0.0;  // nowhere outside
      if (broken || kept_for_sure) continue;
    } else if (broken) {
      certain_ = 0.0;
    }
    for (Candidate& each : open) kept.push_back(std::move(each));
    for (std::size_t d = 0; d < radii.size(); ++d) {
      pairs_.push_back({disc_rows.size() + 2 * d, radii[d], r});
    }
    for (Candidate& each : open_discs) disc_rows.push_back(std::move(each));
  }
  if (certain_) return;
  half_spaces_ = kept.size();
  for (Pair& pair : pairs_) pair.first += half_spaces_;
  for (Candidate& each : disc_rows) kept.push_back(std::move(each));
  if (kept.empty()) {
    certain_ = 1.0;
    return;
  }
  const std::size_t n = kept.size();
  std::vector<double> covariance(n * n);
  double least = kInfinity;
  for (std::size_t i = 0; i < n; ++i) {
    rows_.push_back(kept[i].row);
    asks_[kept[i].row.region] = true;
    for (std::size_t k = 0; k < n; ++k) covariance[i * n + k] = covariance_of(*kept[i].sum, *kept[k].sum, own, cells);
    if (kept[i].margin < least && kept[i].variance > 0.0) {
      least = kept[i].margin;
      nearest_ = i;
    }
    for (std::size_t c = 0; c < common; ++c) {
      double each = 0.0;
      for (const auto& [cell, coefficient] : kept[i].sum->terms) each += coefficient * gain[cell * common + c];
      shared_.push_back(each);
    }
  }
  order_and_factor(std::move(covariance));
  if (common == 0 && n == 1 && half_spaces_ == 1) {
    const double inside = rank_ == 0 ? (rows_[0].mean <= rows_[0].most ? 1.0 : 0.0)
                                     : normal_lower((rows_[0].most - rows_[0].mean) / std::abs(lower_[0]));
    certain_ = outside_[rows_[0].region] ? 1.0 - inside : inside;
  }
}

void LineProblem::order_and_factor(std::vector<double> covariance) {
  const std::size_t n = rows_.size();
  double largest = 0.0;
  for (std::size_t i = 0; i < n; ++i) largest = std::max(largest, covariance[i * n + i]);
  std::vector<std::vector<double>> columns;
  std::size_t pivot = nearest_;
  while (columns.size() < n && covariance[pivot * n + pivot] > kNoVariance * largest) {
    const double root = std::sqrt(covariance[pivot * n + pivot]);
    std::vector<double> column(n);
    for (std::size_t i = 0; i < n; ++i) column[i] = covariance[pivot * n + i] / root;
    for (std::size_t i = 0; i < n; ++i) add_scaled(std::span(covariance).subspan(i * n, n), -column[i], column);
    columns.push_back(std::move(column));
    pivot = 0;
    for (std::size_t i = 1; i < n; ++i) {
      if (covariance[i * n + i] > covariance[pivot * n + pivot]) pivot = i;
    }
  }
  rank_ = columns.size();
  lower_.resize(n * rank_);
  for (std::size_t j = 0; j < rank_; ++j) {
    for (std::size_t i = 0; i < n; ++i) lower_[i * rank_ + j] = columns[j][i];
  }
}

void LineProblem::along_lines(std::span<const std::span<const double>> eta, std::span<const std::span<const double>> z,
                              std::span<double> out, Workspace& work) const {
  const std::size_t count = out.size();
  const std::size_t n = rows_.size();
  std::vector<double>& at = work.at;  // value of each combination where t = 0
  at.resize(n * count);
  for (std::size_t i = 0; i < n; ++i) {
    const std::span<double> values = std::span(at).subspan(i * count, count);
    std::fill(values.begin(), values.end(), rows_[i].mean);
    for (std::size_t c = 0; c < common_; ++c) add_scaled(values, shared_[i * common_ + c], eta[c]);
    for (std::size_t j = 1; j < rank_; ++j) add_scaled(values, lower_[i * rank_ + j], z[j - 1]);
  }
  std::vector<Interval>& by_region = work.by_region;
  by_region.resize(outside_.size());
  for (std::size_t p = 0; p < count; ++p) {
    std::fill(by_region.begin(), by_region.end(), Interval{-kInfinity, kInfinity});
    for (std::size_t i = 0; i < half_spaces_; ++i) {
      const double slope = rank_ == 0 ? 0.0 : lower_[i * rank_];
      const double room = rows_[i].most - at[i * count + p];
      Interval& here = by_region[rows_[i].region];
      if (slope > 0.0) {
        here.high = std::min(here.high, room / slope);
      } else if (slope < 0.0) {
        here.low = std::max(here.low, room / slope);
      } else if (room < 0.0) {
        here = {0.0, 0.0};
      }
    }
    for (const Pair& pair : pairs_) {
      const double p1 = rank_ == 0 ? 0.0 : lower_[pair.first * rank_];
      const double q1 = rank_ == 0 ? 0.0 : lower_[(pair.first + 1) * rank_];
      Interval& here = by_region[pair.region];
      here = meet(here, within_disc(at[pair.first * count + p], p1, at[(pair.first + 1) * count + p], q1, pair.radius));
    }
    Interval base{-kInfinity, kInfinity};
    std::vector<Interval> holes;
    for (std::size_t r = 0; r < by_region.size(); ++r) {
      if (!outside_[r]) {
        base = meet(base, by_region[r]);
      } else if (asks_[r]) {
        holes.push_back(by_region[r]);
      }
    }
    out[p] = holes.empty() ? probability(base) : (base.low < base.high ? probability_without(base, std::move(holes)) : 0.0);
  }
}

}  // namespace fettle
