// The shape model against an independent NumPy version of the same specification (bench/peers): one full covariance per node there,
// blocks with shared unknowns here.
#include <gtest/gtest.h>

#include <cmath>
#include "form/shape_fit.h"
#include "form/shape_misfit.h"
#include "numeric/mixture_chance.h"
#include "outside/peer_case.h"

namespace fettle {
namespace {

using namespace peer;

class ShapeFitPeer : public testing::TestWithParam<const char*> {};

TEST_P(ShapeFitPeer, AgreesWithThePeer) {
  const Json c = read("cases", GetParam());
  const Json expected = read("expected", GetParam());
  BlockGaussian model = model_of(c);
  const ShapeKnowledge knowledge = knowledge_of(c);
  const ShapeFit fit = fit_shape(knowledge, model, ShapeFreedom::usual);
  for (std::size_t h = 0; h < fit.profile.size(); ++h) EXPECT_NEAR(fit.profile[h], expected["f_hat"][h], 1e-8) << h;
  // The nodes that stay, with their weights.
  ASSERT_EQ(fit.nodes.size(), expected["surviving"].size());
  double loose = 0.0;
  for (const FittedNode& node : fit.nodes) {
    if (node.scales.loose) loose += node.weight;
    bool found = false;
    for (const Json& survivor : expected["surviving"]) {
      const Json& scales = expected["nodes"][survivor[0].get<std::size_t>()];
      if (scales[0] != node.scales.wear_um || scales[1] != node.scales.likeness || scales[2] != node.scales.ovality ||
          scales[3] != node.scales.departure || scales[4] != node.scales.roughness_um || scales[5] != (node.scales.loose ? 1 : 0) ||
          scales[6] != node.scales.texture_um || scales[7] != node.scales.even_oval_um ||
          scales[8] != node.scales.clamped_oval_um) {
        continue;
      }
      found = true;
      EXPECT_NEAR(node.weight, survivor[1], 1e-8);
      EXPECT_NEAR(node.posterior.log_likelihood, expected["log_ml"][survivor[0].get<std::size_t>()], 1e-7);
    }
    EXPECT_TRUE(found);
  }
  EXPECT_NEAR(loose, expected["loose"], 1e-8);
  // Estimates and chances.
  GaussianMixture mixture;
  for (const FittedNode& node : fit.nodes) mixture.push_back({node.weight, node.posterior.blocks});
  NormalPoints points(20);
  const ChanceAccuracy accuracy{0.002, 1U << 17U};
  double squares = 0.0;
  double count = 0.0;
  // The worst of all at most 0.005, the usual error at most 0.002.
  const auto off = [&](double ours, double peers) {
    EXPECT_NEAR(ours, peers, 0.005);
    squares += (ours - peers) * (ours - peers);
    count += 1.0;
  };
  for (std::size_t p = 0; p < expected["parts"].size(); ++p) {
    const Json& part = expected["parts"][p];
    for (std::size_t cell = 0; cell < knowledge.cells(); ++cell) {
      double mean = 0.0;
      for (const MixtureNode& node : mixture) mean += node.weight * node.blocks[p].mean[cell];
      EXPECT_NEAR(mean, part["mean_um"][cell], 1e-7);
    }
    std::vector<Region> all;
    for (std::size_t k = 0; k < c["limits"].size(); ++k) {
      all.push_back(region_of(c["limits"][k]));
      const Chance chance = chance_of(mixture, p, {all.back()}, accuracy, points);
      EXPECT_LE(chance.standard_error, 0.001);
      off(chance.value, part["chance_line"][k][0]);
    }
    off(chance_of(mixture, p, all, accuracy, points).value, part["chance_line"].back()[0]);
    // A quarter of the error asked for: as near as the peer itself is.
    EXPECT_NEAR(chance_of(mixture, p, all, {0.0005, 1U << 20U}, points).value, part["chance_line"].back()[0], 0.0015) << p;
  }
  EXPECT_LE(std::sqrt(squares / count), 0.002);
}

INSTANTIATE_TEST_SUITE_P(Cases, ShapeFitPeer, testing::Values("small", "small_no_tolerance", "trial", "demo"));

}  // namespace
}  // namespace fettle
