#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "app/judge_job.h"
#include "job/fold.h"
#include "job/folder.h"
#include "text/sentence.h"
#include "wire/event_json.h"
#include "wire/json_text.h"

namespace fettle {
namespace {

constexpr std::string_view kBetweenFiles = "=====\n";
constexpr std::size_t kFewDraws = 64;
constexpr std::uint64_t kSeed = 20;
constexpr double kRoughChance = 0.05;
constexpr std::size_t kFewPoints = 4096;

/// job.toml, then a line "=====", then readings.csv.
FolderTexts folder_of(std::string_view bytes) {
  const std::size_t cut = bytes.find(kBetweenFiles);
  if (cut == std::string_view::npos) return {"f", std::string(bytes), ""};
  return {"f", std::string(bytes.substr(0, cut)), std::string(bytes.substr(cut + kBetweenFiles.size()))};
}

void say(const Problems& problems) {
  for (const Problem& problem : problems) {
    for (Language language : {Language::english, Language::german}) (void)sentence(problem, language);
  }
  (void)problems_json(problems);
}

void judge_and_write(const Job& job) {
  const Result<JudgedJob> result = judge_job(job, {std::nullopt, {kFewDraws, kSeed, kRoughChance, kFewPoints, kFewDraws}});
  if (!result.ok()) return say(result.problems());
  const JudgedJob& judged = result.value();
  (void)judgement_json(view_of(judged));
}

void walk(std::string_view bytes) {
  const Imported imported = import_folder(folder_of(bytes));
  if (!imported.problems.empty()) return say(imported.problems);
  for (const EventEnvelope& event : imported.events) (void)event_json(event);
  const Folded folded = fold(imported.events);
  if (!folded.problems.empty()) return say(folded.problems);
  judge_and_write(folded.job);
}

}  // namespace
}  // namespace fettle

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string bytes(data, data + size);
  fettle::walk(bytes);
  return 0;
}
