#include "catalogue/gauge_preset.h"

#include <gtest/gtest.h>

#include <cmath>

#include "catalogue/catalogue.h"

namespace fettle {
namespace {

const ErrorComponent& component(const char* preset, const char* id) {
  for (const ErrorComponent& each : catalogue().gauge_preset(preset)->components) {
    if (each.id == id) return each;
  }
  throw InternalError(std::string(preset) + " has no " + id);
}

double micrometres(const ErrorComponent& component) {
  return component.standard_uncertainty() * unit_definition(component.spread.unit).factor.to_double() / 1e4;
}

/// A further half-width that is no gauge's: temperature.
double rectangular_um(double half_width) { return half_width / std::sqrt(3.0); }

/// Root of the sum of squares, times two, in whole micrometres as the working table prints it.
long expanded(std::initializer_list<double> standard_um) {
  double sum = 0.0;
  for (double each : standard_um) sum += each * each;
  return std::lround(2.0 * std::sqrt(sum));
}

// The working estimates for one reading of about 90 to 100 mm: half-widths of rectangular spreads, root-sum, times two.
// Grade: worked out here, no standard. Printed to whole micrometres ("about 8"), so the tolerance is half a micrometre.
constexpr const char* kBore = "dial-bore-gauge-0-002-mm";
constexpr const char* kMicrometer = "outside-micrometer-75-100-mm";

TEST(GaugePreset, BoreGaugeSetInARing) {
  // 2·√((3² + 5² + 3² + 2²)/3) = 7.92; with 1 µm of temperature 7.66.
  for (double temperature : {1.0, 2.0}) {
    EXPECT_EQ(expanded({micrometres(component("setting-ring", "ring")), micrometres(component(kBore, "dial")),
                        micrometres(component(kBore, "repeat")), rectangular_um(temperature)}),
              8);
  }
}

TEST(GaugePreset, BoreGaugeSetInAMicrometer) {
  // 2·√((5² + 3² + 5² + 5² + 2²)/3) = 10.83; the repeat of 3 µm that the presets carry as well makes it 11.37.
  EXPECT_EQ(expanded({micrometres(component(kMicrometer, "limit-of-error")), micrometres(component(kMicrometer, "frame-flex")),
                      micrometres(component(kBore, "dial")), micrometres(component(kBore, "finding-zero")),
                      rectangular_um(2.0)}),
            11);
}

TEST(GaugePreset, MicrometerOnAPiston) {
  // 2·√((5² + 3² + 5²)/3) = 8.87: read on the part the frame bends as it did at its own zero, so no flex.
  EXPECT_EQ(component(kMicrometer, "frame-flex").use, ComponentUse::lent_as_master);
  EXPECT_EQ(expanded({micrometres(component(kMicrometer, "limit-of-error")), micrometres(component(kMicrometer, "feel")),
                      rectangular_um(5.0)}),
            9);
}

TEST(GaugePreset, TelescopingGauge) {
  // 2·√((5² + 10² + 3²)/3) = 13.37.
  constexpr const char* kTelescoping = "telescoping-gauge-mm";
  EXPECT_EQ(expanded({micrometres(component(kTelescoping, "limit-of-error")), micrometres(component(kTelescoping, "transfer")),
                      micrometres(component(kTelescoping, "feel"))}),
            13);
}

TEST(GaugePreset, ClearanceFromOneMicrometer) {
  // 2·√((5² + 5² + 3²)/3) = 8.87: the printed 9 comes out only if the micrometer cancels together with its flex and bore
  // and piston are equally warm; with the flex left in it is 9.52.
  EXPECT_EQ(expanded({micrometres(component(kBore, "dial")), micrometres(component(kBore, "finding-zero")),
                      micrometres(component(kMicrometer, "feel"))}),
            9);
}

TEST(GaugePreset, ScopesAreTheSettledOnes) {
  EXPECT_EQ(component(kMicrometer, "limit-of-error").scope, ErrorScope::master);
  EXPECT_EQ(component(kMicrometer, "frame-flex").scope, ErrorScope::master);
  EXPECT_EQ(component(kBore, "finding-zero").scope, ErrorScope::setting);
  EXPECT_EQ(component(kBore, "finding-zero").set_on, MasterKind::micrometer);
  for (const char* id : {"dial", "repeat", "rounding"}) EXPECT_EQ(component(kBore, id).scope, ErrorScope::reading);
  EXPECT_EQ(catalogue().temperature.scope, ErrorScope::round);
  EXPECT_EQ(catalogue().temperature.spread, (Quantity{Ratio(2), UnitId::celsius}));
}

TEST(GaugePreset, LimitsOfErrorFollowTheRange) {
  // DIN 863-1 as quoted on a gauge page: 4, 4, 5, 5, 6, 6, 7 µm; flex at 10 N 2, 2, 3, 3, 4, 5, 6 µm.
  const std::vector<std::pair<int, int>> printed{{4, 2}, {4, 2}, {5, 3}, {5, 3}, {6, 4}, {6, 5}, {7, 6}};
  for (int i = 0; i < 7; ++i) {
    const auto& [limit, flex] = printed[static_cast<std::size_t>(i)];
    for (const std::string& id :
         {"outside-micrometer-" + std::to_string(25 * i) + "-" + std::to_string(25 * i + 25) + "-mm",
          "outside-micrometer-" + std::to_string(i) + "-" + std::to_string(i + 1) + "-in"}) {
      EXPECT_EQ(component(id.c_str(), "limit-of-error").spread, (Quantity{Ratio(limit), UnitId::micrometre})) << id;
      EXPECT_EQ(component(id.c_str(), "frame-flex").spread, (Quantity{Ratio(flex), UnitId::micrometre})) << id;
    }
  }
}

TEST(GaugePreset, RoundingIsHalfADivision) {
  const ErrorComponent& rounding = component("dial-bore-gauge-0-01-mm", "rounding");
  EXPECT_EQ(rounding.spread, (Quantity{Ratio::of(1, 2), UnitId::division}));
  EXPECT_EQ(catalogue().gauge_preset("dial-bore-gauge-0-0005-in")->division, (Quantity{Ratio::of(5, 10000), UnitId::inch}));
}

TEST(GaugePreset, PressingTheContactIn) {
  EXPECT_EQ(size_per_press(Feature::inside), -1);
  EXPECT_EQ(size_per_press(Feature::outside), 1);
}

TEST(ErrorComponent, StandardUncertaintyByShape) {
  // JCGM 100:2008, 4.3.7 (a/√3) and 4.3.9 (a/√6).
  ErrorComponent each = component(kBore, "dial");
  each.spread.value = Ratio(6);
  EXPECT_DOUBLE_EQ(each.standard_uncertainty(), 6.0 / std::sqrt(3.0));
  each.shape = ErrorShape::triangular;
  EXPECT_DOUBLE_EQ(each.standard_uncertainty(), std::sqrt(6.0));
  each.shape = ErrorShape::normal;
  EXPECT_DOUBLE_EQ(each.standard_uncertainty(), 6.0);
}

TEST(GaugePreset, WordsRoundTrip) {
  for (ErrorScope scope : {ErrorScope::master, ErrorScope::setting, ErrorScope::round, ErrorScope::reading}) {
    EXPECT_EQ(find_scope(scope_name(scope)), scope);
  }
  for (ErrorShape shape : {ErrorShape::normal, ErrorShape::rectangular, ErrorShape::triangular}) {
    EXPECT_EQ(find_shape(shape_name(shape)), shape);
  }
  EXPECT_FALSE(find_scope("week").has_value());
  EXPECT_EQ(master_kind_name(MasterKind::blocks), "blocks");
}

}  // namespace
}  // namespace fettle
