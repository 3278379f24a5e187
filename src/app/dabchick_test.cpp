// A two-stroke single, tests/cli/jobs/dabchick-1: every figure that can be had of it before anything is cut. Expected figures are worked by
// hand in the comments; what a cut moves (the ports after a bore and a gasket, the clean-up of the score) has no stage yet.
#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <map>
#include <sstream>

#include "app/judge_job.h"
#include "catalogue/figure_style.h"
#include "job/fold.h"
#include "job/folder.h"

namespace fettle {
namespace {

std::string file_of_dabchick(const char* name) {
  std::ifstream file(std::string(FETTLE_SOURCE_DIR) + "/tests/cli/jobs/dabchick-1/" + name, std::ios::binary);
  std::ostringstream out;
  out << file.rdbuf();
  return out.str();
}

const JudgedJob& dabchick() {
  static const JudgedJob kJob = [] {
    const Imported folder = import_folder({"dabchick-1", file_of_dabchick("job.toml"), file_of_dabchick("readings.csv")});
    FETTLE_ASSERT(folder.problems.empty(), folder.problems.front().code);
    return judge_job(fold(folder.events).job, {{}, usual_accuracy()}).value();
  }();
  return kJob;
}

const AsMeasured& measured(const std::string& part, const std::string& definition) {
  const auto& all = dabchick().measured;
  const auto found = std::find_if(all.begin(), all.end(), [&](const AsMeasured& each) { return each.part == part && each.definition == definition; });
  FETTLE_ASSERT(found != all.end() && found->value, part + " " + definition);
  return *found;
}

double figure(const std::string& part, const std::string& definition) {
  const AsMeasured& of = measured(part, definition);
  return of.value->to_double() * usual_style(of.dimension, UnitId::millimetre).exact_factor.to_double();
}

const Verdict& verdict(const std::string& limit) {
  const auto& all = dabchick().judgement.verdicts;
  return *std::find_if(all.begin(), all.end(), [&](const Verdict& each) { return each.limit == limit; });
}

const PartState& state(const std::string& part) {
  const auto& all = dabchick().judgement.states;
  return *std::find_if(all.begin(), all.end(), [&](const PartState& each) { return each.part == part; });
}

TEST(Dabchick, SizesAndOvalsOfTheBore) {
  // 56.000 and half divisions of 0.01 anticlockwise: 5½/4, 6/3½, 1/1. Exact.
  EXPECT_DOUBLE_EQ(figure("bore", "size-1"), 56.060);
  EXPECT_DOUBLE_EQ(figure("bore", "size-3"), 56.010);
  const AsMeasured& oval = measured("bore", "oor-1");
  std::vector<Ratio> ovals;
  for (const InnerValue& each : oval.inner) ovals.push_back(each.value);
  EXPECT_EQ(ovals, (std::vector<Ratio>{Ratio(150'000), Ratio(250'000), Ratio(0)}));  // .015, .025, nothing, in counts of 0.1 nm
  EXPECT_EQ(*oval.value, Ratio(250'000));
}

TEST(Dabchick, TheBoreBySizeAndByEye) {
  EXPECT_EQ(verdict("bore-service").reading_keeps, true);     // 56.060 under 56.080
  EXPECT_EQ(verdict("bore-service").word, VerdictWord::within);
  EXPECT_EQ(verdict("bore-new-high").reading_keeps, false);   // 56.060 over 56.019
  // .025 of .030, read to half divisions of .01: it is kept by the reading, and the doubt of it is no small one.
  EXPECT_EQ(verdict("bore-out-of-round").reading_keeps, true);
  EXPECT_NE(verdict("bore-out-of-round").word, VerdictWord::beyond);
  EXPECT_LT(verdict("bore-out-of-round").doubt->margin_in_u, 1.645);  // by its readings alone it is too close to call
  // The eye outranks the gauge: a score that catches a nail, a piston that picked up.
  EXPECT_EQ(state("bore").word, StateWord::beyond);
  EXPECT_EQ(state("piston").word, StateWord::beyond);
}

TEST(Dabchick, Ports) {
  // Stroke 50.6, rod 100: r = 25.3; the piston stands h down where cos a = (r² + (r + 100 - h)² - 100²) / (2 r (r + 100 - h)). Within 0.1°.
  const std::map<std::string, std::pair<double, double>> wanted = {{"exhaust", {85.4, 189.2}}, {"transfers", {113.2, 133.6}}};
  for (const auto& [port, angles] : wanted) {
    EXPECT_NEAR(figure(port, "port-opens"), angles.first, 0.1) << port;
    EXPECT_NEAR(figure(port, "port-duration"), angles.second, 0.1) << port;
  }
}

TEST(Dabchick, SquishGasketAndRatio) {
  EXPECT_DOUBLE_EQ(figure("squish", "squish-mean"), 0.64);               // (.62 + .66) / 2
  EXPECT_DOUBLE_EQ(figure("gasket", "gasket-wanted"), 0.81);             // .95 - .64 + .50
  EXPECT_DOUBLE_EQ(figure("gasket", "squish-with-gasket"), 0.94);        // .64 + .80 - .50
  EXPECT_NEAR(figure("chamber", "swept"), 124.63, 0.005);                // π/4 · 56² · 50.6
  EXPECT_NEAR(figure("chamber", "full-ratio"), 15.49, 0.005);            // 1 + 124.63 / 8.6
  EXPECT_NEAR(figure("chamber", "trapped-ratio"), 8.59, 0.005);          // 1 + 124.63 · 26.5 / 50.6 / 8.6
  EXPECT_EQ(verdict("squish-low").reading_keeps, true);
  EXPECT_EQ(verdict("squish-high").reading_keeps, true);
}

TEST(Dabchick, RingCaseAndCrank) {
  EXPECT_NEAR(figure("ring", "gap-carried-axis"), 0.591, 0.0005);        // .45 + π · (56.055 - 56.010)
  EXPECT_NEAR(figure("case", "case-held"), 44.0, 1e-9);                  // 0.44 bar in kPa
  EXPECT_NEAR(figure("case", "case-loss"), 0.12, 1e-9);
  EXPECT_EQ(verdict("case-holds").word, VerdictWord::within);            // not under 0.40
  EXPECT_DOUBLE_EQ(figure("crank", "run-travel"), 0.03);                 // said to be the whole travel
  EXPECT_DOUBLE_EQ(figure("crank", "run-bend"), 0.015);
  EXPECT_EQ(verdict("crank-true").word, VerdictWord::within);            // 0.03 of 0.05
}

}  // namespace
}  // namespace fettle
