#include "gauging/gauge_study.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "numeric/draws.h"

namespace fettle {
namespace {

TypedQuantity micrometres(std::int64_t value) { return {"", {Ratio(value), UnitId::micrometre}, 0, std::nullopt, {}}; }

StudyReadings nothing_read(bool on_a_dial = false) { return {"g", on_a_dial, std::nullopt, std::nullopt, {}}; }

void read(StudyReadings& into, const std::string& part, const std::string& person, const std::vector<std::int64_t>& um) {
  for (const std::int64_t each : um) into.readings.push_back({part, person, micrometres(each)});
}

std::vector<std::string> codes(const Result<GaugeStudy>& study) {
  std::vector<std::string> out;
  for (const Problem& each : study.problems()) out.push_back(each.code);
  return out;
}

// Five repeats at one spot. By hand: mean 84000 + 3, deviations -3 0 3 -1 1: SS 20, four degrees: √5. Range 6 over 2.48125.
TEST(GaugeStudy, FiveRepeatsAtOneSpot) {
  StudyReadings from = nothing_read();
  read(from, "bore-1", "A", {84000, 84003, 84006, 84002, 84004});
  const GaugeStudy study = study_gauge(from).value();
  EXPECT_EQ(study.unit, UnitId::micrometre);
  EXPECT_NEAR(study.by_variances.spreads.repeatability, std::sqrt(5.0), 1e-13);
  EXPECT_EQ(study.by_variances.spreads.degrees_of_freedom, 4.0);
  ASSERT_TRUE(study.by_ranges);
  EXPECT_NEAR(study.by_ranges->spreads.repeatability, 6.0 / 2.481246, 1e-5);
  EXPECT_NEAR(study.by_ranges->spreads.degrees_of_freedom, 3.8, 0.05);
  EXPECT_FALSE(study.by_variances.spreads.parts);
  EXPECT_FALSE(study.by_variances.spreads.people);
  EXPECT_FALSE(study.by_variances.spreads.categories);
}

// By hand: means 1, 11, 21; within 2 + 2 + 2 with three degrees; between 2·200, two degrees: parts (200 - 2)/2.
TEST(GaugeStudy, OnePersonManyParts) {
  StudyReadings from = nothing_read();
  from.tolerance = micrometres(30);
  read(from, "p1", "A", {0, 2});
  read(from, "p2", "A", {10, 12});
  read(from, "p3", "A", {20, 22});
  const GaugeStudy study = study_gauge(from).value();
  const StudySpreads& found = study.by_variances.spreads;
  EXPECT_NEAR(found.repeatability, std::sqrt(2.0), 1e-13);
  EXPECT_NEAR(found.parts.value(), std::sqrt(99.0), 1e-12);
  EXPECT_NEAR(found.gauge, std::sqrt(2.0), 1e-13);
  EXPECT_NEAR(found.of_tolerance.value(), 6.0 * std::sqrt(2.0) / 30.0, 1e-13);
  EXPECT_EQ(whole_categories(found.categories.value()), 9U);
  EXPECT_FALSE(found.people);
  EXPECT_NEAR(study.by_ranges->spreads.parts.value(), 20.0 / 1.91154, 1e-4);
  EXPECT_TRUE(study.by_ranges->beyond.empty());
}

// A part that was read oftener: variances take it, ranges cannot.
TEST(GaugeStudy, OnePersonMayReadSomePartsOftener) {
  StudyReadings from = nothing_read();
  read(from, "p1", "A", {0, 2, 4});
  read(from, "p2", "A", {10, 12});
  const GaugeStudy study = study_gauge(from).value();
  EXPECT_FALSE(study.by_ranges);
  EXPECT_FALSE(study.repeats);
  EXPECT_NEAR(study.by_variances.spreads.repeatability, std::sqrt(10.0 / 3.0), 1e-13);
  EXPECT_EQ(study.by_variances.spreads.degrees_of_freedom, 3.0);
}

StudyReadings two_by_two() {
  StudyReadings from = nothing_read();
  read(from, "p1", "A", {0, 2});
  read(from, "p1", "B", {4, 6});
  read(from, "p2", "A", {20, 22});
  read(from, "p2", "B", {24, 26});
  return from;
}

// By hand: cells 1 5 21 25: people ±2 (SS 32), parts ±10 (SS 800), interaction 0, within 8 with four degrees.
TEST(GaugeStudy, SeveralPeopleWithTheInteractionPooled) {
  const GaugeStudy study = study_gauge(two_by_two()).value();
  const StudyByVariances& by = study.by_variances;
  EXPECT_NEAR(by.people->sum_of_squares, 32.0, 1e-12);
  EXPECT_NEAR(by.parts->sum_of_squares, 800.0, 1e-12);
  EXPECT_FALSE(by.interaction_kept);
  EXPECT_EQ(by.interaction_chance, 1.0);
  EXPECT_NEAR(by.spreads.repeatability, std::sqrt(8.0 / 5.0), 1e-13);
  EXPECT_EQ(by.spreads.degrees_of_freedom, 5.0);
  EXPECT_NEAR(by.spreads.people.value(), std::sqrt((32.0 - 1.6) / 4.0), 1e-12);
  EXPECT_NEAR(by.spreads.parts.value(), std::sqrt((800.0 - 1.6) / 4.0), 1e-12);
  ASSERT_EQ(study.people.size(), 2U);
  EXPECT_NEAR(study.people[0].off, -2.0, 1e-13);
  EXPECT_NEAR(study.people[1].repeatability, std::sqrt(2.0), 1e-13);
  EXPECT_EQ(study.people[1].degrees_of_freedom, 2.0);
  EXPECT_NEAR(study.by_ranges->mean_range, 2.0, 1e-13);
}

// B reads the second part 12 too much: cells 1 5 21 37. Interaction ±3: SS 72 against 2 a degree.
TEST(GaugeStudy, AnInteractionIsKeptWhereChanceHardlyMakesIt) {
  StudyReadings from = two_by_two();
  for (StudyReading& each : from.readings) {
    if (each.part == "p2" && each.person == "B") each.shows = micrometres((each.shows.quantity.value + Ratio(12)).whole64().value());
  }
  const GaugeStudy study = study_gauge(from).value();
  const StudyByVariances& by = study.by_variances;
  EXPECT_TRUE(by.interaction_kept);
  EXPECT_LT(by.interaction_chance.value(), 0.01);
  EXPECT_NEAR(by.interaction->sum_of_squares, 72.0, 1e-12);
  EXPECT_NEAR(by.spreads.repeatability, std::sqrt(2.0), 1e-13);
  EXPECT_NEAR(by.spreads.interaction.value(), std::sqrt((72.0 - 2.0) / 2.0), 1e-12);
  EXPECT_NEAR(by.spreads.people.value(), std::sqrt((200.0 - 72.0) / 4.0), 1e-12);
}

TEST(GaugeStudy, AVarianceBelowNothingIsHeldThere) {
  StudyReadings from = nothing_read();
  read(from, "p1", "A", {0, 10});
  read(from, "p2", "A", {1, 9});
  const GaugeStudy study = study_gauge(from).value();
  EXPECT_TRUE(study.by_variances.held_at_nothing);
  EXPECT_EQ(study.by_variances.spreads.parts, 0.0);
  EXPECT_EQ(whole_categories(study.by_variances.spreads.categories.value()), 1U);
}

// Twelve ranges of 2 and one of 40: mean 64/13, upper limit 3.27 times that.
TEST(GaugeStudy, ARangeThatChanceHardlyMakesIsTold) {
  StudyReadings from = nothing_read();
  for (int p = 0; p < 12; ++p) read(from, "p" + std::to_string(p), "A", {10 * p, 10 * p + 2});
  read(from, "wild", "A", {0, 40});
  const GaugeStudy study = study_gauge(from).value();
  ASSERT_EQ(study.by_ranges->beyond.size(), 1U);
  EXPECT_EQ(study.by_ranges->beyond[0].part, "wild");
  EXPECT_NEAR(study.by_ranges->upper_limit, 3.26653 * 64.0 / 13.0, 1e-3);
}

// Thirteen leading digits in common cost nothing: differences are exact.
TEST(GaugeStudy, ALargeSizeCostsNoDigits) {
  StudyReadings small = nothing_read();
  StudyReadings large = nothing_read();
  for (const std::int64_t each : {1, 4, 2, 8, 5, 7}) {
    small.readings.push_back({"p", "A", {"", {Ratio::of(each, 10'000), UnitId::micrometre}, 4, {}, {}}});
    large.readings.push_back({"p", "A", {"", {Ratio::of(9'000'000'000'000 + each, 10'000), UnitId::micrometre}, 4, {}, {}}});
  }
  EXPECT_EQ(study_gauge(small).value().by_variances.spreads.repeatability, study_gauge(large).value().by_variances.spreads.repeatability);
}

TEST(GaugeStudy, ADialIsReadInDivisionsWithItsSides) {
  StudyReadings from = nothing_read(true);
  from.division = Length::counts(20'000);
  const auto place = [](std::int64_t clockwise) {
    return TypedQuantity{"", {Ratio(clockwise), UnitId::division}, 0, clockwise < 0 ? NeedleSide::anticlockwise : NeedleSide::clockwise, {}};
  };
  for (const std::int64_t each : {-2, 1, 1}) from.readings.push_back({"p", "A", place(each)});
  const GaugeStudy study = study_gauge(from).value();
  EXPECT_NEAR(study.by_variances.spreads.repeatability, 2.0 * std::sqrt(3.0), 1e-13);  // SS 6 divisions², two degrees, 2 µm each
  EXPECT_FALSE(study.hidden_by_division);
  from.division.reset();
  EXPECT_EQ(codes(study_gauge(from)), std::vector<std::string>{"gauging.study_no_division"});
  const TypedQuantity force{"3 N", {Ratio(3), UnitId::newton}, 0, std::nullopt, {}};
  from.readings = {{"p", "A", force}, {"p", "A", force}};
  EXPECT_EQ(codes(study_gauge(from)), (std::vector<std::string>{"gauging.study_not_a_deviation", "gauging.study_not_a_deviation"}));
}

TEST(GaugeStudy, AllAlikeIsHiddenByTheDivision) {
  StudyReadings from = nothing_read();
  from.division = Length::counts(100'000);
  read(from, "p", "A", {10, 10, 10});
  const GaugeStudy study = study_gauge(from).value();
  EXPECT_EQ(study.by_variances.spreads.repeatability, 0.0);
  EXPECT_TRUE(study.hidden_by_division);
  EXPECT_FALSE(study.by_variances.spreads.categories);
}

TEST(GaugeStudy, RefusesEverythingAtOnce) {
  EXPECT_EQ(codes(study_gauge(nothing_read())), std::vector<std::string>{"gauging.study_empty"});
  StudyReadings once = nothing_read();
  read(once, "p1", "A", {0});
  read(once, "p2", "A", {1});
  once.tolerance = micrometres(0);
  EXPECT_EQ(codes(study_gauge(once)), (std::vector<std::string>{"gauging.study_repeats", "gauging.study_tolerance"}));
  StudyReadings uneven = two_by_two();
  uneven.readings.pop_back();
  read(uneven, "p3", "A", {40, 42});
  const auto refused = study_gauge(uneven);
  EXPECT_EQ(codes(refused), (std::vector<std::string>{"gauging.study_unbalanced", "gauging.study_unbalanced"}));
  StudyReadings mixed = two_by_two();
  mixed.readings[1].shows = {"3 N", {Ratio(3), UnitId::newton}, 0, std::nullopt, {}};
  mixed.readings[2].shows = {"3 cw", {Ratio(3), UnitId::division}, 0, NeedleSide::clockwise, {}};
  EXPECT_EQ(codes(study_gauge(mixed)), (std::vector<std::string>{"gauging.study_mixed", "gauging.study_not_a_size"}));
}

// Forces stay forces.
TEST(GaugeStudy, OtherQuantitiesKeepTheirUnit) {
  StudyReadings from = nothing_read();
  for (const std::int64_t each : {200, 202, 204}) from.readings.push_back({"spring", "A", {"", {Ratio(each), UnitId::newton}, 0, std::nullopt, {}}});
  const GaugeStudy study = study_gauge(from).value();
  EXPECT_EQ(study.unit, UnitId::newton);
  EXPECT_NEAR(study.by_variances.spreads.repeatability, 2.0, 1e-13);
}

// Studies of known truth: repeatability 3, people 2, parts 10. On average both ways find the repeatability's square, within four
// standard errors of 60 studies.
TEST(GaugeStudy, FindsAKnownTruthOnAverage) {
  Generator generator(8, 7);
  constexpr int kStudies = 60;
  double by_variances = 0.0;
  double by_ranges = 0.0;
  const auto normal = [&](double deviation) { return generator.normal() * deviation; };
  for (int s = 0; s < kStudies; ++s) {
    StudyReadings from = nothing_read();
    std::vector<double> people = {normal(2.0), normal(2.0)};
    for (int p = 0; p < 5; ++p) {
      const double part = normal(10.0);
      for (std::size_t who = 0; who < people.size(); ++who) {
        for (int k = 0; k < 2; ++k) {
          const auto counts = static_cast<std::int64_t>(std::llround(10'000.0 * (part + people[who] + normal(3.0))));
          from.readings.push_back({std::to_string(p), std::to_string(who), {"", {Ratio::of(counts, 10'000), UnitId::micrometre}, 4, {}, {}}});
        }
      }
    }
    const GaugeStudy study = study_gauge(from).value();
    by_variances += study.by_variances.spreads.repeatability * study.by_variances.spreads.repeatability / kStudies;
    by_ranges += study.by_ranges->spreads.repeatability * study.by_ranges->spreads.repeatability / kStudies;
  }
  const double error = 9.0 * std::sqrt(2.0 / 9.5 / kStudies);
  // Pooling by a look at the data costs a little: within four standard errors and 3 in 100.
  EXPECT_NEAR(by_variances, 9.0, 4.0 * error + 0.27);
  EXPECT_NEAR(by_ranges, 9.0, 4.0 * error);
}

}  // namespace
}  // namespace fettle
