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

/// A bound that may be open, with what its combination does.
struct Candidate {
  const CellSum* sum;
  double mean;
  double most;
  double variance;  ///< given η
  double margin;    ///< in standard deviations of everything that is not known
  double whole_sd;  ///< of everything that is not known
};

/// The block's law: mean, covariance given η, and what η does.
struct BlockLaw {
  std::span<const double> mean;
  std::span<const double> own;
  std::span<const double> gain;
  std::size_t cells;
  std::size_t common;
  std::vector<double> cell_sd = sds();  ///< of everything that is not known of a cell

  [[nodiscard]] std::vector<double> sds() const {
    std::vector<double> out(cells);
    for (std::size_t c = 0; c < cells; ++c) {
      double variance = own[c * cells + c];
      for (std::size_t e = 0; e < common; ++e) variance += gain[c * common + e] * gain[c * common + e];
      out[c] = std::sqrt(std::max(variance, 0.0));
    }
    return out;
  }

  [[nodiscard]] Candidate candidate(const CellSum& sum, double most) const {
    Candidate out{&sum, value_of(sum, mean), most, covariance_of(sum, sum, own, cells), 0.0, 0.0};
    double whole = out.variance;
    for (std::size_t c = 0; c < common; ++c) {
      const double each = gain_of(sum, gain, common, c);
      whole += each * each;
    }
    const double away = most - out.mean;
    out.whole_sd = std::sqrt(std::max(whole, 0.0));
    out.margin = whole > 0.0 ? away / out.whole_sd : (away >= 0.0 ? kInfinity : -kInfinity);
    return out;
  }

  /// A sum's sd is at most the sum of its terms' sds: most bounds are far enough away to need no more.
  [[nodiscard]] bool keeps_at_once(const HalfSpace& half) const {
    double most_sd = 0.0;
    double away = half.most;
    for (const auto& [cell, coefficient] : half.sum.terms) {
      most_sd += std::abs(coefficient) * cell_sd[cell];
      away -= coefficient * mean[cell];
    }
    return away > kCertain * most_sd;
  }
};

/// What of a region is open: its bounds that are neither kept nor broken for sure.
struct OpenRegion {
  std::vector<Candidate> half_spaces;
  std::vector<Candidate> disc_rows;  ///< two for each disc
  std::vector<double> radii;
  bool broken = false;  ///< some bound is broken for sure

  OpenRegion(const Region& region, const BlockLaw& law) {
    for (const HalfSpace& half : region.half_spaces) {
      if (law.keeps_at_once(half)) continue;
      const Candidate each = law.candidate(half.sum, half.most);
      if (each.margin > kCertain) continue;
      broken = broken || each.margin < -kCertain;
      half_spaces.push_back(each);
    }
    for (const Disc& disc : region.discs) add(disc, law);
  }

  [[nodiscard]] bool kept_for_sure() const { return half_spaces.empty() && disc_rows.empty(); }

 private:
  void add(const Disc& disc, const BlockLaw& law) {
    Candidate first = law.candidate(disc.first, disc.radius);
    Candidate second = law.candidate(disc.second, disc.radius);
    const double out = std::sqrt(first.mean * first.mean + second.mean * second.mean);
    const double sd = std::sqrt(first.whole_sd * first.whole_sd + second.whole_sd * second.whole_sd);
    if (disc.radius - out > (kCertain + 1.0) * sd) return;
    broken = broken || out - disc.radius > (kCertain + 1.0) * sd;
    first.margin = second.margin = sd > 0.0 ? (disc.radius - out) / sd : -kInfinity;
    disc_rows.push_back(first);
    disc_rows.push_back(second);
    radii.push_back(disc.radius);
  }
};

}  // namespace

LineProblem::LineProblem(std::span<const double> mean, std::span<const double> own, std::span<const double> gain,
                         std::size_t cells, std::size_t common, const std::vector<Region>& regions)
    : common_(common) {
  const BlockLaw law{mean, own, gain, cells, common};
  std::vector<const CellSum*> sums;
  double least = kInfinity;
  const auto add_row = [&](const Candidate& each, std::size_t region) {
    if (each.margin < least && each.variance > 0.0) {
      least = each.margin;
      nearest_ = rows_.size();
    }
    rows_.push_back({each.mean, each.most, region});
    sums.push_back(each.sum);
    asks_[region] = true;
    for (std::size_t c = 0; c < common; ++c) shared_.push_back(gain_of(*each.sum, gain, common, c));
  };
  std::vector<std::pair<std::size_t, OpenRegion>> open;
  for (std::size_t r = 0; r < regions.size(); ++r) {
    outside_.push_back(regions[r].outside);
    asks_.push_back(false);
    OpenRegion region(regions[r], law);
    if (regions[r].outside) {
      if (region.kept_for_sure()) certain_ = 0.0;  // nowhere outside
      if (region.broken) continue;
    } else if (region.broken) {
      certain_ = 0.0;
    }
    if (!region.kept_for_sure()) open.emplace_back(r, std::move(region));
  }
  if (certain_) return;
  for (const auto& [r, region] : open) {
    for (const Candidate& each : region.half_spaces) add_row(each, r);
  }
  half_spaces_ = rows_.size();
  for (const auto& [r, region] : open) {
    for (std::size_t d = 0; d < region.radii.size(); ++d) {
      pairs_.push_back({rows_.size(), region.radii[d], r});
      add_row(region.disc_rows[2 * d], r);
      add_row(region.disc_rows[2 * d + 1], r);
    }
  }
  if (rows_.empty()) {
    certain_ = 1.0;
    return;
  }
  const std::size_t n = rows_.size();
  std::vector<double> covariance(n * n);
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t k = 0; k < n; ++k) covariance[i * n + k] = covariance_of(*sums[i], *sums[k], own, cells);
  }
  order_and_factor(std::move(covariance));
  answer_single_bound();
}

void LineProblem::answer_single_bound() {
  if (common_ != 0 || rows_.size() != 1 || half_spaces_ != 1) return;
  const double inside = rank_ == 0 ? (rows_[0].mean <= rows_[0].most ? 1.0 : 0.0)
                                   : normal_lower((rows_[0].most - rows_[0].mean) / std::abs(lower_[0]));
  certain_ = outside_[rows_[0].region] ? 1.0 - inside : inside;
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
