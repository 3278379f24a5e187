// The published study of tests/outside/statistics/crossed_study.txt through the whole stage.
#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

#include "gauging/gauge_study.h"
#include "numeric/fisher.h"
#include "outside/statistics_case.h"

namespace fettle {
namespace {

constexpr double kMicrometres = 1000.0;  ///< the figures are taken for mm

double rounded_to(double value, int decimals) { return std::round(value * std::pow(10.0, decimals)) / std::pow(10.0, decimals); }

GaugeStudy published(const OutsideCase& each) {
  StudyReadings from{"g", false, std::nullopt, std::nullopt, {}};
  for (const auto& [part, values] : each.lists) {
    for (std::size_t i = 0; i < values.size(); ++i) {
      const auto hundredths = static_cast<std::int64_t>(std::llround(values[i] * 100.0));
      from.readings.push_back({part, std::string(1, static_cast<char>('A' + i / 3)), {"", {Ratio::of(hundredths, 100), UnitId::millimetre}, 2, {}, {}}});
    }
  }
  return study_gauge(from).value();
}

/// Ranges reckoned as in print: from intermediates with four figures and constants with four decimals.
void add_rounded(const GaugeStudy& study, Numbers& out) {
  const StudyByRanges& by = *study.by_ranges;
  const double ev = rounded_to(by.mean_range / kMicrometres, 4) * 0.5908;
  const double av = std::sqrt(std::pow(0.4446 * 0.5231, 2.0) - ev * ev / 30.0);
  const double pv = 3.511 * 0.3146;
  const double both = std::sqrt(ev * ev + av * av);
  out["rounded repeatability"] = ev;
  out["rounded people"] = av;
  out["rounded gauge"] = both;
  out["rounded parts"] = pv;
  out["rounded total"] = std::sqrt(both * both + pv * pv);
}

void add_spreads(const std::string& before, const StudySpreads& of, Numbers& out) {
  out[before + "repeatability"] = of.repeatability / kMicrometres;
  out[before + "people"] = of.people.value() / kMicrometres;
  out[before + "gauge"] = of.gauge / kMicrometres;
  out[before + "parts"] = of.parts.value() / kMicrometres;
  out[before + "total"] = of.total.value() / kMicrometres;
}

void add_line(const std::string& what, const VarianceLine& line, Numbers& out) {
  const double squared = kMicrometres * kMicrometres;
  out["SS " + what] = line.sum_of_squares / squared;
  out["df " + what] = line.degrees_of_freedom;
  out["MS " + what] = line.mean_square() / squared;
}

Numbers answers(const OutsideCase& each) {
  const GaugeStudy study = published(each);
  const StudyByVariances& by = study.by_variances;
  Numbers out;
  add_line("parts", *by.parts, out);
  add_line("people", *by.people, out);
  add_line("interaction", *by.interaction, out);
  add_line("repeats", by.within, out);
  add_spreads("", by.spreads, out);
  add_spreads("exact ", by.spreads, out);
  add_spreads("ranges ", study.by_ranges->spreads, out);
  out["F interaction"] = out["exact F interaction"] = by.interaction->mean_square() / by.within.mean_square();
  out["p interaction"] = out["exact p interaction"] = by.interaction_chance.value();
  out["F parts over interaction"] = by.parts->mean_square() / by.interaction->mean_square();
  out["F people over interaction"] = by.people->mean_square() / by.interaction->mean_square();
  out["pooled MS"] = out["repeatability"] * out["repeatability"];
  out["pooled df"] = by.spreads.degrees_of_freedom;
  out["interaction kept"] = by.interaction_kept ? 1.0 : 0.0;
  out["repeatability not pooled"] = std::sqrt(by.within.mean_square()) / kMicrometres;
  for (const std::string what : {"repeatability", "people", "gauge", "parts"}) {
    const double share = out[what] / out["total"];
    out["percent " + what] = 100.0 * share;
    out["contribution " + what] = 100.0 * share * share;
  }
  const double printed = 1.41 / std::sqrt(2.0);
  out["categories with 1.41"] = by.spreads.categories.value() * printed;
  out["whole categories"] = static_cast<double>(whole_categories(by.spreads.categories.value()));
  out["ranges categories with 1.41"] = study.by_ranges->spreads.categories.value() * printed;
  out["whole ranges categories"] = static_cast<double>(whole_categories(study.by_ranges->spreads.categories.value()));
  out["mean range"] = study.by_ranges->mean_range / kMicrometres;
  out["upper limit of ranges"] = study.by_ranges->upper_limit / kMicrometres;
  out["exact ranges repeatability"] = out["ranges repeatability"];
  out["ranges beyond"] = static_cast<double>(study.by_ranges->beyond.size());
  add_rounded(study, out);
  return out;
}

TEST(OutsideGaugeStudy, TenPartsThreePeople) {
  for (const std::string& each : differences("crossed_study.txt", 58, answers)) ADD_FAILURE() << each;
}

}  // namespace
}  // namespace fettle
