// One case of bench/peers, judged by this program: the answer is checked against the peer's first, then timed. bench/peers/ratio.py runs both.
//   fettle_peer <case> <least seconds>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>

#include "form/shape_fit.h"
#include "outside/peer_case.h"

namespace fettle {
namespace {

GaussianMixture judged(const ShapeKnowledge& knowledge, BlockGaussian& model) {
  const ShapeFit fit = fit_shape(knowledge, model, ShapeFreedom::usual);
  GaussianMixture mixture;
  for (const FittedNode& node : fit.nodes) mixture.push_back({node.weight, node.posterior.blocks});
  return mixture;
}

/// Seconds of one call, the best of many within `least` seconds.
template <class Work>
double seconds(double least, const Work& work) {
  using Clock = std::chrono::steady_clock;
  double best = 1e9;
  const auto began = Clock::now();
  do {
    const auto from = Clock::now();
    work();
    best = std::min(best, std::chrono::duration<double>(Clock::now() - from).count());
  } while (std::chrono::duration<double>(Clock::now() - began).count() < least);
  return best;
}

struct Asked {
  std::vector<std::vector<Region>> questions;  ///< each limit, then all together
  std::size_t parts;
};

/// All chances of all parts; the largest distance from the peer's.
double chances(const GaussianMixture& mixture, const Asked& asked, const ChanceAccuracy& accuracy, const peer::Json* expected) {
  NormalPoints points(20);
  double worst = 0.0;
  for (std::size_t p = 0; p < asked.parts; ++p) {
    for (std::size_t q = 0; q < asked.questions.size(); ++q) {
      const Chance chance = chance_of(mixture, p, asked.questions[q], accuracy, points);
      if (expected != nullptr) worst = std::max(worst, std::abs(chance.value - (*expected)["parts"][p]["chance_line"][q][0].get<double>()));
    }
  }
  return worst;
}

int run(const char* name, double least) {
  const peer::Json c = peer::read("cases", name);
  const peer::Json expected = peer::read("expected", name);
  const ShapeKnowledge knowledge = peer::knowledge_of(c);
  BlockGaussian model = peer::model_of(c);
  Asked asked{{}, c["parts"].size()};
  for (const peer::Json& limit : c["limits"]) asked.questions.push_back({peer::region_of(limit)});
  std::vector<Region> all;
  for (const auto& each : asked.questions) all.push_back(each.front());
  asked.questions.push_back(all);
  const GaussianMixture mixture = judged(knowledge, model);
  const ChanceAccuracy same_points{1e-9, 8192};
  const ChanceAccuracy same_error{0.002, 1U << 17U};
  const double worst = chances(mixture, asked, same_error, &expected);
  if (worst > 0.005) {
    std::fprintf(stderr, "wrong answer: a chance is %.4f off\n", worst);
    return 1;
  }
  std::printf("{\"fit\": %.6f, \"chances_8192_points\": %.6f, \"chances_error_0.002\": %.6f, \"worst\": %.5f}\n",
              seconds(least, [&] { (void)judged(knowledge, model); }),
              seconds(least, [&] { (void)chances(mixture, asked, same_points, nullptr); }),
              seconds(least, [&] { (void)chances(mixture, asked, same_error, nullptr); }), worst);
  return 0;
}

}  // namespace
}  // namespace fettle

int main(int argc, char** argv) { return fettle::run(argc > 1 ? argv[1] : "trial", argc > 2 ? std::atof(argv[2]) : 1.0); }
