#include <benchmark/benchmark.h>

#include <algorithm>
#include <filesystem>
#include <string>

#include "app/judge_job.h"
#include "app/next_page.h"
#include "app/open_folder.h"
#include "app/sixteen_valves_on_bench.h"
#include "app/take_in.h"
#include "job/fold.h"
#include "store_sqlite/sqlite_store.h"

namespace fettle {
namespace {

const std::string kDemo = std::string(FETTLE_SOURCE_DIR) + "/examples/curlew-3";
constexpr int kReadings = 5000;
constexpr std::size_t kOpenInTwelve = 3;

/// The demo's job with 5,000 readings of its three bores, numbered as repeats.
FolderTexts many_readings() {
  FolderTexts texts = read_folder(kDemo).value();
  texts.readings_csv = "part,station,direction,reading,unit,setting,round,order,repeat,temperature,flag,note,who,when\n";
  const char* stations[] = {"top", "mid", "bottom", "foot"};
  const char* directions[] = {"thrust", "pin"};
  for (int i = 0; i < kReadings; ++i) {
    texts.readings_csv += "bore-" + std::to_string(i % 3 + 1) + "," + stations[i / 3 % 4] + "," + directions[i / 12 % 2] + "," +
                          std::to_string(20 + i % 90) + " acw,div,first,1," + std::to_string(i + 1) + "," +
                          std::to_string(i / 24 + 1) + ",,,,,\n";
  }
  return texts;
}

void ReadCheckAndFold5000(benchmark::State& state) {
  const FolderTexts texts = many_readings();
  for (auto each : state) {
    const Imported imported = import_folder(texts);
    const Folded folded = fold(imported.events);
    if (!imported.problems.empty() || folded.job.readings.size() != kReadings) state.SkipWithError("wrong answer");
    benchmark::DoNotOptimize(folded.job.readings.data());
  }
}
BENCHMARK(ReadCheckAndFold5000)->Unit(benchmark::kMillisecond);

class NoTime final : public Clock {
 public:
  [[nodiscard]] std::string now() override { return "2031-05-04T08:12:00.000000Z"; }
};

/// From a real file: every event read, its chain checked, its line understood, all of it folded.
void OpenARecordedJobOf5000(benchmark::State& state) {
  const std::string folder = (std::filesystem::temp_directory_path() / "fettle-open-bench").string();
  std::filesystem::remove_all(folder);
  std::filesystem::create_directories(folder);
  NoTime time;
  const auto store = open_sqlite_store(folder + "/yard.fettle", time, usual_sqlite_options()).value();
  const TakenIn taken = take_in(*store, many_readings(), std::nullopt, {"", ""}).value();
  for (auto each : state) {
    const Result<RecordedJob> recorded = open_recorded(*store, taken.job);
    if (!recorded.ok() || recorded.value().job.readings.size() != kReadings) state.SkipWithError("wrong answer");
  }
}
BENCHMARK(OpenARecordedJobOf5000)->Unit(benchmark::kMillisecond);

void JudgeTheDemo(benchmark::State& state) {
  const Job job = open_folder(kDemo).value();
  for (auto each : state) {
    const Result<JudgedJob> judged = judge_job(job, {{}, usual_accuracy()});
    if (!judged.ok() || judged.value().judgement.states.at(2).word != StateWord::too_close) state.SkipWithError("wrong answer");
  }
}
BENCHMARK(JudgeTheDemo)->Unit(benchmark::kMillisecond);

/// Twelve bores, seven mains, six pins, twenty-four springs, faces and chambers: 716 readings.
void JudgeAWholeEngine(benchmark::State& state) {
  const Job job = open_folder(std::string(FETTLE_SOURCE_DIR) + "/tests/cli/jobs/grebe-12").value();
  for (auto each : state) {
    const Result<JudgedJob> judged = judge_job(job, {{}, usual_accuracy()});
    if (!judged.ok() || judged.value().judgement.states.at(1).word != StateWord::too_close) state.SkipWithError("wrong answer");
  }
}
BENCHMARK(JudgeAWholeEngine)->Unit(benchmark::kMillisecond);

/// What to read next, the judgement at hand: the demo's one open bore, and a whole engine of twelve.
void WhatToReadNext(benchmark::State& state, const std::string& folder, std::size_t open) {
  const Job job = open_folder(folder).value();
  const JudgedJob judged = judge_job(job, {{}, usual_accuracy()}).value();
  for (auto each : state) {
    const Advice advice = next_reading(judged);
    const bool right = advice.parts.size() == open && advice.parts.front().part.substr(0, 4) == "bore" && !advice.groups.empty();
    if (!right) state.SkipWithError("wrong answer");
  }
}
BENCHMARK_CAPTURE(WhatToReadNext, demo, kDemo, 1)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(WhatToReadNext, twelve_bores, std::string(FETTLE_SOURCE_DIR) + "/tests/cli/jobs/grebe-12", kOpenInTwelve)->Unit(benchmark::kMillisecond);

/// The first reading of a part, and two texts that it is typed as in turn.
struct ReadingEdited {
  Kept<Reading>* reading;
  TypedQuantity texts[2];
};

ReadingEdited edited_reading(Job& job, const std::string& part, const char* first, const char* second) {
  const auto found = std::find_if(job.readings.begin(), job.readings.end(), [&](const auto& each) { return each.value.part == part; });
  const TypedQuantity old = found->value.quantity;
  const TypingContext context{old.quantity.unit, old.quantity.dimension(), DecimalMark::point, std::nullopt, old.side.has_value(), std::nullopt};
  return {&*found, {read_quantity(first, context, {}).value(), read_quantity(second, context, {}).value()}};
}

/// The same after one reading of a part was typed anew, with what was judged before remembered.
void JudgeOneEdit(benchmark::State& state, const std::string& part, const char* first, const char* second) {
  Job job = open_folder(std::string(FETTLE_SOURCE_DIR) + "/tests/cli/jobs/grebe-12").value();
  const ReadingEdited edited = edited_reading(job, part, first, second);
  JobMemory memory;
  JudgeOptions options{{}, usual_accuracy()};
  options.memory = &memory;
  std::size_t turn = 0;
  for (auto each : state) {
    memory.next_round();
    edited.reading->value.quantity = edited.texts[++turn % 2];
    const Result<JudgedJob> judged = judge_job(job, options);
    if (!judged.ok() || judged.value().judgement.states.at(1).word != StateWord::too_close) state.SkipWithError("wrong answer");
  }
}
BENCHMARK_CAPTURE(JudgeOneEdit, spring, "spring-17", "48.60 mm", "48.70 mm")->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(JudgeOneEdit, bore, "bore-5", "68 acw", "69 acw")->Unit(benchmark::kMillisecond);

/// A four-cylinder engine with sixteen valves: about 940 readings of 35 kinds. SixteenValves.* keep its answer.
Job sixteen_valves_job(bool two_worn_out) { return fold(import_folder(sixteen_valves::folder(two_worn_out)).events).job; }

bool sixteen_valves_are_right(const Result<JudgedJob>& judged, bool two_worn_out) {
  if (!judged.ok() || judged.value().job.readings.size() < 900) return false;
  std::size_t beyond = 0;
  for (const PartState& state : judged.value().judgement.states) beyond += state.word == StateWord::beyond ? 1 : 0;
  return beyond == (two_worn_out ? 3 : 0);  // a bore, a guide, and the clearance in that guide
}

void JudgeSixteenValves(benchmark::State& state, bool two_worn_out) {
  const Job job = sixteen_valves_job(two_worn_out);
  for (auto each : state) {
    if (!sixteen_valves_are_right(judge_job(job, {{}, usual_accuracy()}), two_worn_out)) state.SkipWithError("wrong answer");
  }
}
BENCHMARK_CAPTURE(JudgeSixteenValves, two_worn_out, true)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(JudgeSixteenValves, sound, false)->Unit(benchmark::kMillisecond);

void JudgeOneEditOfSixteenValves(benchmark::State& state, const std::string& part, const char* first, const char* second) {
  Job job = sixteen_valves_job(true);
  const ReadingEdited edited = edited_reading(job, part, first, second);
  JobMemory memory;
  JudgeOptions options{{}, usual_accuracy()};
  options.memory = &memory;
  if (!sixteen_valves_are_right(judge_job(job, options), true)) state.SkipWithError("wrong answer");  // warm, as after the first look
  std::size_t turn = 0;
  for (auto each : state) {
    memory.next_round();
    edited.reading->value.quantity = edited.texts[++turn % 2];
    if (!sixteen_valves_are_right(judge_job(job, options), true)) state.SkipWithError("wrong answer");
  }
}
BENCHMARK_CAPTURE(JudgeOneEditOfSixteenValves, spring, "spring-7", "46.20 mm", "46.10 mm")->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(JudgeOneEditOfSixteenValves, guide, "guide-9", "7.03 mm", "7.04 mm")->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(JudgeOneEditOfSixteenValves, stem, "stem-9", "6.94 mm", "6.95 mm")->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(JudgeOneEditOfSixteenValves, main, "main-2", "59.97 mm", "59.98 mm")->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(JudgeOneEditOfSixteenValves, bore, "bore-2", "44 acw", "45 acw")->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace fettle
