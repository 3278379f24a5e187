#include "form/shape_rows.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "gauging/closing_zero.h"

namespace fettle {
namespace {

constexpr std::size_t kParts = 3;
constexpr std::size_t kPlaces = 4;

/// Three bores of four places under one setting with a master, a setting error, a round's temperature and a closing zero that moved by 6 µm;
/// every reading has its own repeatability of 3 µm.
SizeSet bores() {
  SizeSet set;
  const auto source = [&](const std::string& id, ErrorScope scope, double sd_mm) {
    set.sources.push_back({id, "c", scope, ErrorShape::normal, sd_mm, {}, "test"});
    return set.sources.size() - 1;
  };
  const std::size_t master = source("master", ErrorScope::master, 0.004);
  const std::size_t setting = source("setting", ErrorScope::setting, 0.003);
  const std::size_t temperature = source("temperature", ErrorScope::round, 2.0);
  const ClosingZero closing(0.006, kParts * kPlaces);
  std::vector<std::size_t> steps;
  for (std::size_t k = 0; k < kParts * kPlaces; ++k) steps.push_back(source("zero" + std::to_string(k), ErrorScope::setting, closing.step_uncertainty_mm()));
  for (std::size_t p = 0; p < kParts; ++p) {
    for (std::size_t c = 0; c < kPlaces; ++c) {
      const std::size_t k = p * kPlaces + c + 1;
      const double mm = 84.0 + 0.001 * static_cast<double>(k);
      Size size{"r" + std::to_string(k), "bore-" + std::to_string(p), "s", c, Ratio(), mm, {}};
      size.terms = {{master, 1.0}, {setting, 1.0}, {temperature, 84.0 * 10.8e-6}};
      for (const ClosingZero::Step& step : closing.steps(k)) size.terms.push_back({steps[step.number], step.coefficient});
      size.terms.push_back({source("repeat" + std::to_string(k), ErrorScope::reading, 0.003), 1.0});
      set.sizes.push_back(std::move(size));
    }
  }
  return set;
}

double by_sources(const SizeSet& set, const Size& a, const Size& b) {
  double sum = 0.0;
  for (const ErrorTerm& left : a.terms) {
    for (const ErrorTerm& right : b.terms) {
      const double um = 1000.0 * set.sources[left.source].standard_uncertainty;
      if (left.source == right.source) sum += left.coefficient * right.coefficient * um * um;
    }
  }
  return sum;
}

double by_rows(const ShapeRows& rows, std::size_t p, std::size_t i, std::size_t q, std::size_t k) {
  const BlockRows& a = rows.blocks[p];
  const BlockRows& b = rows.blocks[q];
  double sum = p == q ? a.noise[i * a.cell.size() + k] : 0.0;
  for (std::size_t e = 0; e < rows.error_columns; ++e) sum += a.errors[i * rows.error_columns + e] * b.errors[k * rows.error_columns + e];
  return sum;
}

const std::vector<std::string> kIds = {"bore-0", "bore-1", "bore-2"};

TEST(ShapeRows, CarryTheWholeCovarianceOfTheSources) {
  const SizeSet set = bores();
  for (const std::vector<std::size_t>& named : {std::vector<std::size_t>{}, std::vector<std::size_t>{0, 2}}) {
    const ShapeRows rows = shape_rows(kIds, set, {84.0, 1.0}, named);
    for (std::size_t p = 0; p < kParts; ++p) {
      for (std::size_t q = 0; q < kParts; ++q) {
        for (std::size_t i = 0; i < kPlaces; ++i) {
          for (std::size_t k = 0; k < kPlaces; ++k) {
            const double expected = by_sources(set, set.sizes[p * kPlaces + i], set.sizes[q * kPlaces + k]);
            EXPECT_NEAR(by_rows(rows, p, i, q, k), expected, 2e-3) << p << i << q << k;
          }
        }
      }
    }
    // Fewer columns than the fifteen common sources, as they are nearly one thing.
    EXPECT_LT(rows.error_columns, 15U);
    EXPECT_NEAR(rows.blocks[2].value[3], 12.0, 1e-9);
  }
}

/// Two bores read under two settings with one master and one temperature, a third bore under a setting of its own in another round.
SizeSet two_settings() {
  SizeSet set;
  const auto source = [&](const std::string& id, ErrorScope scope, double sd) {
    set.sources.push_back({id, "c", scope, ErrorShape::normal, sd, {}, "test"});
    return set.sources.size() - 1;
  };
  const std::size_t master = source("master", ErrorScope::master, 0.004);
  const std::size_t settings[] = {source("s1", ErrorScope::setting, 0.003), source("s2", ErrorScope::setting, 0.003),
                                  source("s3", ErrorScope::setting, 0.005)};
  const std::size_t rounds[] = {source("t1", ErrorScope::round, 2.0), source("t2", ErrorScope::round, 1.5)};
  const auto read = [&](std::size_t part, std::size_t cell, std::size_t setting, std::size_t round, double master_share) {
    Size size{"r" + std::to_string(set.sizes.size()), "bore-" + std::to_string(part), "s" + std::to_string(setting), cell, Ratio(), 84.0, {}};
    size.terms = {{master, master_share}, {settings[setting], 1.0}, {rounds[round], 84.0 * 10.8e-6}};
    size.terms.push_back({source("repeat", ErrorScope::reading, 0.002 + 0.0001 * static_cast<double>(set.sizes.size())), 1.0});
    set.sizes.push_back(std::move(size));
  };
  for (std::size_t cell = 0; cell < kPlaces; ++cell) {
    for (std::size_t part = 0; part < 2; ++part) {
      for (std::size_t setting = 0; setting < 2; ++setting) read(part, cell, setting, 0, setting == 0 ? 1.0 : 0.9);
    }
    if (cell != 1) read(2, cell, 2, 1, 1.0);
  }
  return set;
}

TEST(ShapeRows, SettingsShareAMasterAndRoundsATemperature) {
  const SizeSet set = two_settings();
  const auto size_of = [&](const ShapeRow& row) -> const Size& {
    return *std::find_if(set.sizes.begin(), set.sizes.end(), [&](const Size& each) { return each.reading == row.readings.front(); });
  };
  for (const double sign : {1.0, -1.0}) {
    // None named, the master, and the master with what only the third bore rests on.
    for (const std::vector<std::size_t>& named : {std::vector<std::size_t>{}, std::vector<std::size_t>{0}, std::vector<std::size_t>{0, 3, 5}}) {
      const ShapeRows rows = shape_rows(kIds, set, {84.0, sign}, named);
      ASSERT_EQ(rows.rows[0].size(), 2 * kPlaces);
      ASSERT_EQ(rows.rows[2].size(), kPlaces - 1);
      for (std::size_t p = 0; p < kParts; ++p) {
        for (std::size_t q = 0; q < kParts; ++q) {
          for (std::size_t i = 0; i < rows.rows[p].size(); ++i) {
            for (std::size_t k = 0; k < rows.rows[q].size(); ++k) {
              const double expected = by_sources(set, size_of(rows.rows[p][i]), size_of(rows.rows[q][k]));
              EXPECT_NEAR(by_rows(rows, p, i, q, k), expected, 2e-3) << sign << p << q << i << k;
            }
          }
        }
      }
      for (std::size_t k = 0; k < named.size(); ++k) {
        const std::size_t column = rows.error_columns - named.size() + k;
        for (std::size_t i = 0; i < rows.rows[2].size(); ++i) {
          double expected = 0.0;
          for (const ErrorTerm& term : rows.rows[2][i].terms) {
            if (term.source == named[k]) expected = sign * 1000.0 * term.coefficient * set.sources[term.source].standard_uncertainty;
          }
          EXPECT_NEAR(rows.blocks[2].errors[i * rows.error_columns + column], expected, 1e-12);
        }
      }
    }
  }
}

TEST(ShapeRows, NamedSourcesKeepTheLastColumnsAndAShaftTurnsThemRound) {
  const SizeSet set = bores();
  const ShapeRows rows = shape_rows(kIds, set, {84.0, -1.0}, {0});
  EXPECT_NEAR(rows.blocks[0].value[0], -1.0, 1e-9);
  EXPECT_NEAR(rows.blocks[1].errors.back(), -4.0, 1e-9);  // a master 4 µm large makes a shaft look 4 µm less worn
}

TEST(ShapeRows, RepeatsUnderOneSettingAreOneRow) {
  SizeSet set = bores();
  Size again = set.sizes[0];
  again.reading = "again";
  again.estimate += 0.004;
  set.sources.push_back({"repeat-again", "c", ErrorScope::reading, ErrorShape::normal, 0.003, {}, "test"});
  again.terms.back().source = set.sources.size() - 1;
  set.sizes.push_back(again);
  const ShapeRows rows = shape_rows(kIds, set, {84.0, 1.0}, {});
  ASSERT_EQ(rows.blocks[0].cell.size(), kPlaces);
  EXPECT_NEAR(rows.blocks[0].value[0], 3.0, 1e-9);  // mean of 1 and 5
  EXPECT_EQ(rows.rows[0][0].readings.size(), 2U);
  // Two readings of 3 µm each, and what is common in full.
  EXPECT_NEAR(by_rows(rows, 0, 0, 0, 0), by_sources(set, set.sizes[0], set.sizes[0]) - 9.0 / 2.0, 5e-3);
}

}  // namespace
}  // namespace fettle
