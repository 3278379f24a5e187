// Readings of which no figure can be made: refused with what to look at, under every rule and on both sides of the edge.
#include <gtest/gtest.h>

#include <algorithm>

#include "app/kinds_on_bench.h"
#include "catalogue/catalogue.h"
#include "text/sentence.h"

namespace fettle {
namespace {

constexpr const char* kDepthGauge = "depth-gauge-0-01-mm";

/// A port with its edge so far below the crown, and limits of how long it is open that anything between 0° and 360° keeps.
PartsRead port(const std::string& edge, const std::string& stroke, const std::string& rod) {
  PartsRead out{part("exhaust", "port"),
                {{"exhaust", "port-depth", "", edge, kDepthGauge},
                 {"exhaust", "deck", "", "0 mm", kDepthGauge},
                 {"exhaust", "stroke", "", stroke, "caliper"},
                 {"exhaust", "rod-length", "", rod, "caliper"}}};
  for (const char* side : {"at-least", "at-most"}) {
    out.parts += std::string("[[limit]]\nid = \"") + side + "\"\ndefinition = \"port-opens\"\nkind = \"port\"\nrole = \"service\"\nside = \"" + side +
                 "\"\nbound = \"" + (side == std::string("at-least") ? "-1" : "181") + " °\"\nbook = \"b\"\npage = \"1\"\n";
  }
  return out;
}

const AsMeasured& measured(const JudgedJob& job, const std::string& definition) {
  return *std::find_if(job.measured.begin(), job.measured.end(), [&](const AsMeasured& each) { return each.definition == definition; });
}

std::string said(const Problem& problem, const std::string& tail) { return sentence(Message{"problem." + problem.code + tail, problem.arguments}, Language::english); }

TEST(NoFigure, AnEdgeBelowTheStrokeIsSaidAndNotJudged) {
  const JudgedJob job = judged(port("60 mm", "50.6 mm", "100 mm"));
  for (const char* definition : {"port-opens", "port-duration"}) {
    const AsMeasured& figure = measured(job, definition);
    EXPECT_FALSE(figure.value);
    ASSERT_EQ(figure.missing.size(), 1U);
    EXPECT_EQ(figure.missing[0].code, "form.no_figure");
    EXPECT_NE(said(figure.missing[0], "").find("an edge 60.0000 mm = 2.36220 in below the crown does not fit a stroke of 50.6000 mm = 1.99213 in"), std::string::npos)
        << said(figure.missing[0], "");
    EXPECT_NE(said(figure.missing[0], ".do").find("stroke"), std::string::npos) << said(figure.missing[0], ".do");
  }
  ASSERT_EQ(job.judgement.verdicts.size(), 2U);
  for (const Verdict& each : job.judgement.verdicts) {
    EXPECT_EQ(each.word, VerdictWord::not_judged);
    EXPECT_FALSE(each.as_measured || each.doubt || each.plain);
    ASSERT_EQ(each.reasons.size(), 1U);
    EXPECT_EQ(each.reasons[0].code, "form.no_figure");
  }
  EXPECT_EQ(job.judgement.states[0].word, StateWord::not_judged);
}

TEST(NoFigure, NoStrokeNoRodAndAnEdgeAboveTheCrown) {
  const std::vector<std::vector<std::string>> wrong = {{"26.5 mm", "0 mm", "100 mm"}, {"26.5 mm", "50.6 mm", "0 mm"}, {"-1 mm", "50.6 mm", "100 mm"},
                                                       {"26.5 mm", "50.6 mm", "10 mm"}, {"26.5 mm", "5.06 mm", "100 mm"}};
  for (const auto& each : wrong) {
    const JudgedJob job = judged(port(each[0], each[1], each[2]));
    EXPECT_FALSE(measured(job, "port-opens").value) << each[0] << " " << each[1] << " " << each[2];
    for (const Verdict& verdict : job.judgement.verdicts) EXPECT_EQ(verdict.word, VerdictWord::not_judged) << each[0] << " " << each[1] << " " << each[2];
  }
}

// At the dead centre the angle is endlessly steep: the clamp gave it no doubt at all, and the verdict was sure.
TEST(NoFigure, AtTheDeadCentreTheDoubtReachesWhereNothingIs) {
  for (const char* edge : {"50.6 mm", "50.58 mm", "0 mm"}) {
    const JudgedJob job = judged(port(edge, "50.6 mm", "100 mm"));
    EXPECT_TRUE(measured(job, "port-opens").value);
    for (const Verdict& each : job.judgement.verdicts) {
      EXPECT_TRUE(each.as_measured);
      EXPECT_EQ(each.word, VerdictWord::not_judged) << edge;
      EXPECT_FALSE(each.doubt || each.plain);
      ASSERT_EQ(each.reasons.size(), 1U);
      EXPECT_EQ(each.reasons[0].code, "verdict.near_no_figure");
    }
    const JudgedJob plainly = judged(port(edge, "50.6 mm", "100 mm"), Rule{RuleKind::reading, Ratio::of(95, 100), TieRule::equal_is_within});
    for (const Verdict& each : plainly.judgement.verdicts) {
      EXPECT_EQ(each.word, VerdictWord::within) << edge;
      EXPECT_FALSE(each.doubt);
      EXPECT_TRUE(std::any_of(each.remarks.begin(), each.remarks.end(), [](const Message& remark) { return remark.key == "remark.near_no_figure"; }));
    }
  }
  // A millimetre of room, and it is judged as ever.
  const JudgedJob clear = judged(port("49 mm", "50.6 mm", "100 mm"));
  for (const Verdict& each : clear.judgement.verdicts) EXPECT_EQ(each.word, VerdictWord::within);
}

// Draws past the edge keep no limit, on whichever side: with 2.5 standard uncertainties left about 6 of 1024 are.
TEST(NoFigure, ImpossibleDrawsKeepNothing) {
  const Expansion angle{Sense::formula, ResultDimension::angle, {}, {}, {}, {0}, {},
                        {{FormulaNode{FormulaStep::arccosine, 0, 0.0, {FormulaNode{FormulaStep::cell, 0, 0.0, {}}}}, {0}, {1.0}, {{0}, {0}}}}};
  const std::vector<ErrorSource> sources = {{"s", "c", ErrorScope::reading, ErrorShape::normal, 0.04, std::nullopt, ""}};
  const PartEstimate estimate{"p", {PlaceEstimate{0, {}, Ratio(), 0.9, {{0, 1.0}}}}};
  std::vector<Question> questions;
  for (const LimitSide side : {LimitSide::at_most, LimitSide::at_least}) questions.push_back({angle, estimate, sources, side == LimitSide::at_most ? 360.0 : -1.0, side});
  const PlainFigures figures = plain_figures(questions, {true, true}, sources, {1U << 16U, 20, 0.002, 1U << 17U, 0});
  for (const PlainFigure& each : figures.each) EXPECT_NEAR(each.value, 0.99379, 0.0012);  // Φ(2.5), four standard errors
  const Weighing near = weigh(questions[0], 0.95);
  ASSERT_TRUE(near.near);
  EXPECT_EQ(near.near->sort, FormulaTrouble::Sort::no_triangle);
  const PartEstimate further{"p", {PlaceEstimate{0, {}, Ratio(), 0.87, {{0, 1.0}}}}};
  EXPECT_FALSE(weigh({angle, further, sources, 360.0, LimitSide::at_most}, 0.95).near);
}

TEST(NoFigure, ShareOfNothingIsDividedByNothing) {
  const PartsRead test{part("case", "case-test"),
                       {{"case", "start-pressure", "", "0 bar", "pressure-gauge"}, {"case", "end-pressure", "", "0 bar", "pressure-gauge"}}};
  const JudgedJob job = judged(test);
  ASSERT_EQ(measured(job, "case-loss").missing.size(), 1U);
  const Problem& problem = measured(job, "case-loss").missing[0];
  EXPECT_EQ(problem.code, "form.no_figure");
  EXPECT_NE(said(problem, "").find("divided by nothing"), std::string::npos) << said(problem, "");
  EXPECT_TRUE(measured(job, "case-held").value);  // the pressure itself is a figure
}

}  // namespace
}  // namespace fettle
