#include "gauging/gauge_study.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "gauging/known_setting.h"
#include "numeric/compensated_sum.h"
#include "numeric/fisher.h"
#include "numeric/range_constants.h"
#include "numeric/summary.h"
#include "units/print.h"

namespace fettle {
namespace {

constexpr double kSqrt2 = 1.4142135623730951;
constexpr double kSpreadsInTolerance = 6.0;
constexpr double kRangeLimit = 3.0;
constexpr std::size_t kMostInRange = 100;
constexpr std::size_t kMostRounded = 12;  ///< r²/12

double root(double variance) { return std::sqrt(std::max(variance, 0.0)); }
double squared(double value) { return value * value; }
double number(std::size_t count) { return static_cast<double>(count); }

double range_of(const std::vector<double>& values) {
  const auto [least, most] = std::minmax_element(values.begin(), values.end());
  return *most - *least;
}

double mean_of(const std::vector<double>& values) { return summarize(values).mean; }

/// Place of `name` in the list, at its end if it is new.
std::size_t place_in(std::vector<std::string>& names, const std::string& name) {
  const auto found = std::find(names.begin(), names.end(), name);
  if (found != names.end()) return static_cast<std::size_t>(found - names.begin());
  names.push_back(name);
  return names.size() - 1;
}

class Studying {
 public:
  explicit Studying(const StudyReadings& from) : from_(from) {}

  Result<GaugeStudy> run() {
    if (from_.readings.empty()) add("gauging.study_empty", {}, {verbatim("gauge", from_.gauge)});
    make_values();
    if (problems_.empty()) check_cells();
    check_tolerance();
    if (!problems_.empty()) return problems_;
    out_.gauge = from_.gauge;
    out_.on_a_dial = from_.on_a_dial;
    out_.readings = from_.readings.size();
    if (from_.division) out_.division = in_unit(from_.division->ratio());
    out_.parts = parts_;
    for (std::size_t who = 0; who < people_.size(); ++who) out_.people.push_back(person(who));
    by_variances();
    if (out_.repeats && *out_.repeats <= kMostInRange && cells_.size() > 0) by_ranges();
    return std::move(out_);
  }

 private:
  void add(std::string code, const Place& place, std::vector<Argument> arguments) { problems_.push_back({std::move(code), place, std::move(arguments)}); }

  [[nodiscard]] double in_unit(const Ratio& base) const { return (base / unit_definition(out_.unit).factor).to_double(); }

  /// What a reading says, in the base unit of its dimension; nothing, and a problem, where it says nothing.
  std::optional<Ratio> exact(const TypedQuantity& typed) {
    if (from_.on_a_dial) {
      if (typed.quantity.dimension() == Dimension::divisions && !from_.division) {
        if (!told_division_) add("gauging.study_no_division", typed.place, {verbatim("gauge", from_.gauge)});
        told_division_ = true;
        return std::nullopt;
      }
      auto counts = clockwise_counts(typed, from_.division);
      if (!counts) add("gauging.study_not_a_deviation", typed.place, {verbatim("text", typed.text), verbatim("gauge", from_.gauge)});
      return counts;
    }
    if (typed.side || typed.quantity.dimension() == Dimension::divisions) {
      add("gauging.study_not_a_size", typed.place, {verbatim("text", typed.text), verbatim("gauge", from_.gauge)});
      return std::nullopt;
    }
    return typed.quantity.in_base();
  }

  void make_values() {
    std::optional<Ratio> first;
    std::optional<Dimension> dimension;
    for (const StudyReading& each : from_.readings) {
      const auto value = exact(each.shows);
      if (!value) continue;
      const Dimension own = from_.on_a_dial ? Dimension::length : each.shows.quantity.dimension();
      if (!first) {
        first = value;
        dimension = own;
        out_.unit = own == Dimension::length ? UnitId::micrometre : each.shows.quantity.unit;
      }
      if (own != dimension) {
        add("gauging.study_mixed", each.shows.place, {verbatim("text", each.shows.text)});
        continue;
      }
      cells_[{place_in(parts_, each.part), place_in(people_, each.person)}].push_back(in_unit(*value - *first));
    }
  }

  /// Several people: the same count in every cell. One person: at least one part read twice.
  void check_cells() {
    std::size_t most = 0;
    for (const auto& [cell, values] : cells_) most = std::max(most, values.size());
    bool alike = true;
    for (std::size_t part = 0; part < parts_.size(); ++part) {
      for (std::size_t who = 0; who < people_.size(); ++who) {
        const auto found = cells_.find({part, who});
        const std::size_t count_here = found == cells_.end() ? 0 : found->second.size();
        if (count_here == most) continue;
        alike = false;
        if (people_.size() < 2) continue;
        add("gauging.study_unbalanced", {}, {verbatim("part", parts_[part]), verbatim("person", people_[who]),
                                             count("readings", static_cast<std::int64_t>(count_here)), count("most", static_cast<std::int64_t>(most))});
      }
    }
    if (most < 2) add("gauging.study_repeats", {}, {verbatim("gauge", from_.gauge)});
    if (alike) out_.repeats = most;
  }

  void check_tolerance() {
    if (!from_.tolerance) return;
    const Quantity& typed = from_.tolerance->quantity;
    const bool fits = from_.readings.empty() || !problems_.empty() || typed.dimension() == unit_definition(out_.unit).dimension;
    if (typed.value.sign() > 0 && fits) {
      if (problems_.empty()) out_.tolerance = in_unit(typed.in_base());
    } else {
      add("gauging.study_tolerance", from_.tolerance->place, {verbatim("text", from_.tolerance->text)});
    }
  }

  [[nodiscard]] StudyPerson person(std::size_t who) const {
    PooledSpread own;
    std::vector<double> readings;
    std::vector<double> all;
    for (const auto& [cell, values] : cells_) {
      all.insert(all.end(), values.begin(), values.end());
      if (cell.second != who) continue;
      readings.insert(readings.end(), values.begin(), values.end());
      own.add(squared(summarize(values).standard_deviation) * (number(values.size()) - 1.0), number(values.size()) - 1.0);
    }
    return {people_[who], mean_of(readings) - mean_of(all), own.standard_deviation(), own.degrees_of_freedom};
  }

  /// Readings by part where one person read several, by person where several read one.
  [[nodiscard]] std::vector<std::vector<double>> groups() const {
    std::vector<std::vector<double>> out;
    for (const auto& [cell, values] : cells_) out.push_back(values);
    return out;
  }

  void by_variances() {
    StudyByVariances& to = out_.by_variances;
    to = {std::nullopt, std::nullopt, std::nullopt, {0.0, 0.0}, std::nullopt, false, false, {}};
    if (parts_.size() > 1 && people_.size() > 1) {
      crossed(to);
    } else if (cells_.size() > 1) {
      one_way(to);
    } else {
      const Summary found = summarize(cells_.begin()->second);
      const double degrees = number(found.count) - 1.0;
      to.within = {squared(found.standard_deviation) * degrees, degrees};
    }
    finish(to);
  }

  void one_way(StudyByVariances& to) {
    const OneWayVariance found = one_way_variance(groups());
    to.within = found.within;
    const double component = (found.between.mean_square() - found.within.mean_square()) / found.usual_count;
    to.held_at_nothing = component < 0.0;
    if (parts_.size() > 1) {
      to.parts = found.between;
      to.spreads.parts = root(component);
    } else {
      to.people = found.between;
      to.spreads.people = root(component);
    }
  }

  void crossed(StudyByVariances& to) {
    CrossedValues from{parts_.size(), people_.size(), *out_.repeats, {}};
    for (const auto& [cell, values] : cells_) from.values.insert(from.values.end(), values.begin(), values.end());
    const CrossedVariance found = crossed_variance(from);
    to.parts = found.rows;
    to.people = found.columns;
    to.interaction = found.interaction;
    to.within = found.within;
    const double within = found.within.mean_square();
    const double together = found.interaction.mean_square();
    to.interaction_chance = within > 0.0 ? fisher_upper(together / within, found.interaction.degrees_of_freedom, found.within.degrees_of_freedom)
                                         : (together > 0.0 ? 0.0 : 1.0);
    to.interaction_kept = *to.interaction_chance < kInteractionChance;
    const double repeats = number(*out_.repeats);
    const double noise = to.interaction_kept ? together : pooled(found).standard_deviation() * pooled(found).standard_deviation();
    if (to.interaction_kept) to.spreads.interaction = root((together - within) / repeats);
    const double of_people = (found.columns.mean_square() - noise) / (number(parts_.size()) * repeats);
    const double of_parts = (found.rows.mean_square() - noise) / (number(people_.size()) * repeats);
    to.held_at_nothing = of_people < 0.0 || of_parts < 0.0;
    to.spreads.people = root(of_people);
    to.spreads.parts = root(of_parts);
  }

  static PooledSpread pooled(const CrossedVariance& found) {
    PooledSpread out;
    out.add(found.interaction.sum_of_squares, found.interaction.degrees_of_freedom);
    out.add(found.within.sum_of_squares, found.within.degrees_of_freedom);
    return out;
  }

  void finish(StudyByVariances& to) {
    PooledSpread own;
    own.add(to.within.sum_of_squares, to.within.degrees_of_freedom);
    if (to.interaction && !to.interaction_kept) own.add(to.interaction->sum_of_squares, to.interaction->degrees_of_freedom);
    to.spreads.repeatability = own.standard_deviation();
    to.spreads.degrees_of_freedom = own.degrees_of_freedom;
    complete(to.spreads);
    const double rounding = out_.division.value_or(0.0);
    out_.hidden_by_division = squared(to.spreads.repeatability) <= squared(rounding) / number(kMostRounded);
  }

  /// What follows from repeatability, people, interaction and parts.
  void complete(StudySpreads& to) const {
    const double of_gauge = squared(to.repeatability) + squared(to.people.value_or(0.0)) + squared(to.interaction.value_or(0.0));
    to.gauge = std::sqrt(of_gauge);
    if (to.parts) {
      to.total = std::sqrt(of_gauge + squared(*to.parts));
      if (to.gauge > 0.0) to.categories = kSqrt2 * *to.parts / to.gauge;
    }
    if (out_.tolerance) to.of_tolerance = kSpreadsInTolerance * to.gauge / *out_.tolerance;
  }

  void by_ranges() {
    const std::size_t repeats = *out_.repeats;
    std::vector<double> ranges;
    for (const auto& [cell, values] : cells_) ranges.push_back(range_of(values));
    StudyByRanges to{mean_of(ranges), 0.0, 0.0, {}, {}};
    const double spread = range_deviation(repeats) / range_mean(repeats);
    to.lower_limit = std::max(0.0, 1.0 - kRangeLimit * spread) * to.mean_range;
    to.upper_limit = (1.0 + kRangeLimit * spread) * to.mean_range;
    for (const auto& [cell, values] : cells_) {
      const double range = range_of(values);
      if (range > to.upper_limit || range < to.lower_limit) to.beyond.push_back({parts_[cell.first], people_[cell.second], range});
    }
    const bool many = ranges.size() > kManyRanges;
    to.spreads.repeatability = to.mean_range / (many ? range_mean(repeats) : pooled_range_divisor(repeats, ranges.size()));
    to.spreads.degrees_of_freedom = range_degrees_of_freedom(repeats, ranges.size());
    if (people_.size() > 1 && people_.size() <= kMostInRange) {
      const double apart = range_of(means(false)) / pooled_range_divisor(people_.size(), 1);
      to.spreads.people = root(squared(apart) - squared(to.spreads.repeatability) / (number(parts_.size()) * number(repeats)));
    }
    if (parts_.size() > 1 && parts_.size() <= kMostInRange) to.spreads.parts = range_of(means(true)) / pooled_range_divisor(parts_.size(), 1);
    complete(to.spreads);
    out_.by_ranges = std::move(to);
  }

  [[nodiscard]] std::vector<double> means(bool of_parts) const {
    std::vector<std::vector<double>> by(of_parts ? parts_.size() : people_.size());
    for (const auto& [cell, values] : cells_) {
      auto& own = by[of_parts ? cell.first : cell.second];
      own.insert(own.end(), values.begin(), values.end());
    }
    std::vector<double> out;
    for (const std::vector<double>& each : by) out.push_back(mean_of(each));
    return out;
  }

  const StudyReadings& from_;
  Problems problems_;
  GaugeStudy out_{};
  bool told_division_ = false;
  std::vector<std::string> parts_;
  std::vector<std::string> people_;
  std::map<std::pair<std::size_t, std::size_t>, std::vector<double>> cells_;  ///< by part and person
};

}  // namespace

Result<GaugeStudy> study_gauge(const StudyReadings& from) { return Studying(from).run(); }

std::size_t whole_categories(double categories) { return static_cast<std::size_t>(std::max(1.0, std::floor(categories))); }

}  // namespace fettle
