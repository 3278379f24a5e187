#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>

#include "app/judge_job.h"
#include "app/open_folder.h"
#include "base/digest.h"
#include "job/fold.h"
#include "job/folder_text.h"
#include "simulate/engine.h"
#include "simulate/families_file.h"

namespace fettle {
namespace {

std::string judged(const Job& job) {
  const auto judged = judge_job(job, {{}, usual_accuracy()});
  return judged.ok() ? judgement_json(view_of(judged.value())) : problems_json(judged.problems());
}

/// Job folders of this repository that need no catalogue of their own; those that do are read by tests/cli/check_export.py.
std::vector<std::string> folders() {
  std::vector<std::string> out;
  for (const char* where : {"/examples", "/tests/cli/jobs"}) {
    for (const auto& each : std::filesystem::directory_iterator(std::string(FETTLE_SOURCE_DIR) + where)) {
      const std::string name = each.path().filename().string();
      if (name != "curlew-3-mistakes" && name != "own-kind" && name != "trade-kinds") out.push_back(each.path().string());
    }
  }
  std::sort(out.begin(), out.end());
  return out;
}

TEST(FolderAgain, EveryJobFolderJudgesTheSameToTheByte) {
  const std::vector<std::string> all = folders();
  ASSERT_GE(all.size(), 12U);
  for (const std::string& path : all) {
    const Imported first = import_folder(read_folder(path).value());
    ASSERT_TRUE(first.problems.empty()) << path;
    const WrittenFolder folder = written_folder(first.events).value();
    EXPECT_TRUE(folder.left_out.empty() && folder.refused.empty()) << path;
    const Imported second = import_folder(folder.texts);
    ASSERT_TRUE(second.problems.empty()) << path;
    EXPECT_TRUE(judged(fold(first.events).job) == judged(fold(second.events).job)) << path;
    const FolderTexts again = written_folder(second.events).value().texts;
    EXPECT_TRUE(again.job_toml == folder.texts.job_toml && again.readings_csv == folder.texts.readings_csv) << path;
  }
}

/// The job with event ids that say what was read and nothing of where it came from: ids seed the draws behind the plain figures.
Job named_by_content(Job job) {
  for (Kept<Reading>& kept : job.readings) {
    const Reading& reading = kept.value;
    kept.event = digest({reading.part, reading.station, reading.direction, reading.quantity.text, reading.setting, reading.round,
                         std::to_string(reading.order.value_or(0)), std::to_string(reading.repeat.value_or(0))});
  }
  return job;
}

TEST(FolderAgain, SimulatedEnginesJudgeTheSame) {
  std::size_t engines = 0;
  for (const EngineFamily& family : built_in_families()) {
    for (const char* hand : {"mid-drifting", "coarse"}) {
      const SimulatedEngine made = simulate_engine(family, *find_hand(built_in_hands(), hand), 9, 1);
      const FolderTexts texts = folder_texts(made.job, {}, {});
      const Imported read = import_folder(texts);
      ASSERT_TRUE(read.problems.empty()) << family.id << " " << read.problems.front().code;
      const Job again = fold(read.events).job;
      EXPECT_TRUE(judged(named_by_content(made.job)) == judged(named_by_content(again))) << family.id << " " << hand;
      const FolderTexts second = folder_texts(again, {}, {});
      EXPECT_TRUE(second.job_toml == texts.job_toml && second.readings_csv == texts.readings_csv) << family.id << " " << hand;
      ++engines;
    }
  }
  EXPECT_GE(engines, 20U);
}

}  // namespace
}  // namespace fettle
