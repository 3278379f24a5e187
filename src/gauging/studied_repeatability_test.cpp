#include "gauging/studied_repeatability.h"

#include <gtest/gtest.h>

#include <cmath>

#include "catalogue/catalogue.h"
#include "gauging/said_repeatability.h"

namespace fettle {
namespace {

TypedQuantity typed_as(const std::string& text) { return read_quantity(text, {{}, {}, DecimalMark::point, {}, false, {}}, {}).value(); }

StudiedGauge study_of(const std::string& gauge, std::optional<std::string> person, const std::string& repeatability, std::int64_t degrees = 20) {
  return {gauge, std::move(person), typed_as(repeatability), degrees, StudyMethod::variances, {}, {}, {}, "2031-05-01", std::string(64, 'a'), ""};
}

/// Three readings under "s": two by Anna, one by nobody known; repeatability 3 µm and a division of 1 µm.
struct StudiedBench {
  SizeSet set{};
  std::map<std::string, KnownGauge> gauges;
  ReadWith with{{{"s", "g"}}, {{"r0", "Anna"}, {"r1", "Anna"}}};
  Problems problems;

  explicit StudiedBench(double stated_mm = 0.003) {
    for (std::size_t k = 0; k < 3; ++k) {
      const std::string id = "r" + std::to_string(k);
      set.sources.push_back({"reading:" + id + ":repeat", "repeat", ErrorScope::reading, ErrorShape::rectangular, stated_mm, {}, "preset"});
      set.sources.push_back({"reading:" + id + ":rounding", "rounding", ErrorScope::reading, ErrorShape::rectangular, 0.001 / std::sqrt(12.0), {}, "preset"});
      set.sizes.push_back({id, "b", "s", k, Ratio(), 84.0, {{2 * k, 1.0}, {2 * k + 1, 1.0}}});
    }
    KnownGauge gauge{};
    gauge.id = "g";
    gauge.preset = catalogue().gauge_preset("dial-bore-gauge-0-001-mm");
    gauge.division = Length::counts(10'000);
    gauges.emplace("g", gauge);
  }

  std::vector<UsedStudy> use(const std::vector<StudiedGauge>& studies) {
    for (const StudiedGauge& each : studies) kept_.push_back({"e", each});
    return use_studies(set, kept_, gauges, with, problems);
  }
  [[nodiscard]] double repeat_um(std::size_t k) const { return 1000.0 * set.sources[2 * k].standard_uncertainty; }

 private:
  std::vector<Kept<StudiedGauge>> kept_;
};

// 5 µm as read hold a twelfth of a µm² of rounding.
TEST(StudiedRepeatability, StandsInThePlaceOfThePresets) {
  StudiedBench bench;
  const auto used = bench.use({study_of("g", {}, "5 µm")});
  ASSERT_EQ(used.size(), 1U);
  EXPECT_EQ(used[0].sizes, 3U);
  EXPECT_NEAR(used[0].stated, 0.003, 1e-12);
  for (std::size_t k = 0; k < 3; ++k) {
    EXPECT_NEAR(bench.repeat_um(k), std::sqrt(25.0 - 1.0 / 12.0), 1e-9);
    EXPECT_EQ(bench.set.sources[2 * k].degrees_of_freedom, 20.0);
    EXPECT_EQ(bench.set.sources[2 * k].shape, ErrorShape::normal);
    EXPECT_NE(bench.set.sources[2 * k].origin.find("gauge study, 2031-05-01, 20 degrees of freedom"), std::string::npos);
    EXPECT_EQ(bench.set.sources[2 * k + 1].origin, "preset");
  }
  const Message told = said(used[0]);
  EXPECT_EQ(told.key, "notice.studied");
}

TEST(StudiedRepeatability, APersonsOwnGoesBeforeTheGauges) {
  StudiedBench bench;
  const auto used = bench.use({study_of("g", "Anna", "2 µm", 8), study_of("g", {}, "5 µm"), study_of("g", "Bert", "9 µm")});
  ASSERT_EQ(used.size(), 2U);  // Bert read nothing
  EXPECT_NEAR(bench.repeat_um(0), std::sqrt(4.0 - 1.0 / 12.0), 1e-9);
  EXPECT_EQ(bench.set.sources[0].degrees_of_freedom, 8.0);
  EXPECT_NEAR(bench.repeat_um(2), std::sqrt(25.0 - 1.0 / 12.0), 1e-9);
  EXPECT_EQ(said(used[0]).key, "notice.studied_of");
}

// 0.2 µm as read is less than rounding to 1 µm makes: a tenth of the division stays.
TEST(StudiedRepeatability, ClaimsNothingBelowATenthOfADivision) {
  StudiedBench bench;
  (void)bench.use({study_of("g", {}, "0.2 µm")});
  EXPECT_NEAR(bench.repeat_um(0), 0.1, 1e-9);
}

TEST(StudiedRepeatability, StandsWhereNothingWasStated) {
  StudiedBench bench(0.0);
  (void)bench.use({study_of("g", {}, "5 µm")});
  ASSERT_EQ(bench.set.sources.size(), 9U);
  EXPECT_EQ(bench.set.sizes[1].terms.back().source, 7U);
  EXPECT_NEAR(bench.set.sources[7].standard_uncertainty, std::sqrt(25.0 - 1.0 / 12.0) / 1000.0, 1e-12);
}

TEST(StudiedRepeatability, CountsLikeItsDegreesOfFreedomBesideRepeats) {
  StudiedBench bench;
  for (Size& each : bench.set.sizes) each.cell = 0;
  bench.set.sizes[1].estimate += 0.010;  // two repeats by Anna 10 µm apart: SS 50 µm², one degree
  (void)bench.use({study_of("g", "Anna", "2 µm", 8)});
  const auto learned = learn_repeatability(bench.set, bench.with);
  ASSERT_EQ(learned.size(), 1U);
  EXPECT_EQ(learned[0].person, "Anna");
  EXPECT_EQ(learned[0].counts, 8.0);
  const double studied = 4.0 - 1.0 / 12.0;
  EXPECT_NEAR(1000.0 * learned[0].learned, std::sqrt((8.0 * studied + 50.0 - 1.0 / 12.0) / 9.0), 1e-9);
  EXPECT_EQ(bench.set.sources[0].degrees_of_freedom, 9.0);
  EXPECT_NEAR(bench.repeat_um(2), 3.0, 1e-9);  // nobody's reading keeps what was stated
  EXPECT_EQ(said(learned[0]).key, "notice.repeatability_of");
}

TEST(StudiedRepeatability, RefusesWhatCannotBe) {
  StudiedBench bench;
  const auto used = bench.use({study_of("other", {}, "5 µm"), study_of("g", {}, "0 µm"), study_of("g", {}, "5 µm", 0), study_of("g", {}, "5 N")});
  EXPECT_TRUE(used.empty());
  ASSERT_EQ(bench.problems.size(), 4U);
  EXPECT_EQ(bench.problems[0].code, "gauging.study_unknown_gauge");
  EXPECT_EQ(bench.problems[1].code, "gauging.study_nothing");
  EXPECT_EQ(bench.problems[2].code, "gauging.study_no_freedom");
  EXPECT_EQ(bench.problems[3].code, "gauging.study_other_quantity");
  EXPECT_NEAR(bench.repeat_um(0), 3.0, 1e-9);
}

}  // namespace
}  // namespace fettle
