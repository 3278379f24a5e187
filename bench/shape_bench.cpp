#include <benchmark/benchmark.h>

#include <cmath>
#include <string>

#include "app/judge_job.h"
#include "form/shape_group.h"
#include "simulate/decide.h"
#include "simulate/families_file.h"

namespace fettle {
namespace {

/// Twelve bores, six heights, four directions, one setting: 288 readings.
const char* const kLarge = R"(
[usual]
parts = 12
standard = "84.000 mm"
tolerance = ["0 µm", "20 µm"]
as_made = "10 µm"
as_made_common = "4 µm"
as_made_own = "3.5 µm"
texture = "2 µm"
steps = ["0 µm"]
three_lobe = "0 µm"
untold_slip = "0 µm"
told_step = "standard"
told_condition = "worn"
tells_tolerance = true
unread_stations = []
unread_directions = []
station = [
  { id = "s1", role = "first", depth = "10 mm" },
  { id = "s2", role = "inner", depth = "28 mm" },
  { id = "s3", role = "inner", depth = "46 mm" },
  { id = "s4", role = "middle", depth = "64 mm" },
  { id = "s5", role = "inner", depth = "82 mm" },
  { id = "s6", role = "last", depth = "100 mm" },
]
direction = [
  { id = "thrust", angle = "0 °" },
  { id = "d45", angle = "45 °" },
  { id = "pin", angle = "90 °" },
  { id = "d135", angle = "135 °" },
]
limit = [
  { definition = "size-1", bound = "84.100 mm" },
  { definition = "oor-2", bound = "0.040 mm" },
  { definition = "tap-2", bound = "0.080 mm" },
]
[[family]]
id = "large"
about = "for timing"
component = [
  { id = "wear", pattern = "round", profile = "exponential", amount = ["60 µm", "60 µm"], length = ["0.5", "0.5"], likeness = "0.25" },
  { id = "oval", pattern = "oval", angle = "0 °", follows = "wear", share = ["0.4", "0.4"], likeness = "0.3" },
]
)";

/// How many places lie within three of their own standard deviations of the truth.
double share_within_three(const SimulatedEngine& engine, const ShapeGroup& group) {
  double within = 0.0;
  double all = 0.0;
  for (std::size_t b = 0; b < group.parts.size(); ++b) {
    for (std::size_t cell = 0; cell < engine.truth.sizes_mm[b].size(); ++cell) {
      const PlacePosterior place = place_posterior(group, b, cell);
      within += std::abs(place.mean_mm - engine.truth.sizes_mm[b][cell]) <= 3.0 * place.sd_mm ? 1.0 : 0.0;
      all += 1.0;
    }
  }
  return within / all;
}

void JudgeTwelveBoresOf24Places(benchmark::State& state) {
  const std::vector<EngineFamily> families = read_families(kLarge, "bench").value();
  const SimulatedEngine engine = simulate_engine(families.front(), *find_hand(built_in_hands(), "mid"), 1, 0);
  for (auto each : state) {
    const Result<JudgedJob> judged = judge_job(engine.job, {{}, usual_accuracy(), JudgeDetail::verdicts});
    state.PauseTiming();
    if (!judged.ok() || !judged.value().groups.front().shape ||
        share_within_three(engine, *judged.value().groups.front().shape) < 0.98) {
      state.SkipWithError("wrong answer");
    }
    state.ResumeTiming();
  }
}
BENCHMARK(JudgeTwelveBoresOf24Places)->Unit(benchmark::kMillisecond);

void SimulateMeasureJudgeFourBores(benchmark::State& state) {
  const EngineFamily& family = *find_family(built_in_families(), "exp");
  const Hand& hand = *find_hand(built_in_hands(), "mid");
  const TruthJudge truth(family);
  Accuracy accuracy = usual_accuracy();
  accuracy.draws = 0;
  accuracy.best_draws = 0;
  accuracy.chance_error = 0.01;
  NormalPoints points(accuracy.seed);
  std::uint64_t number = 0;
  double brier = 0.0;
  for (auto each : state) {
    const SimulatedEngine engine = simulate_engine(family, hand, 1, number++);
    const Result<JudgedJob> judged = judge_job(engine.job, {{}, accuracy, JudgeDetail::verdicts, &points});
    const Outcome outcome = decide(engine, truth, judged.value().judgement, judged.value().groups, {});
    const double off = outcome.ours.value_or(0.5) - (outcome.good ? 1.0 : 0.0);
    brier += off * off;
  }
  // What "one half" always scores is 0.25; these engines score about 0.08.
  if (number > 100 && brier / static_cast<double>(number) > 0.12) state.SkipWithError("wrong answer");
  state.SetItemsProcessed(static_cast<std::int64_t>(number));
}
BENCHMARK(SimulateMeasureJudgeFourBores)->Unit(benchmark::kMillisecond)->MinTime(3.0);

}  // namespace
}  // namespace fettle
