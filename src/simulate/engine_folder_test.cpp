#include "simulate/engine_folder.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "app/judge_job.h"
#include "job/fold.h"
#include "job/folder.h"
#include "simulate/families_file.h"

namespace fettle {
namespace {

SimulatedEngine engine(const std::string& family, const std::string& hand) {
  return simulate_engine(*find_family(built_in_families(), family), *find_hand(built_in_hands(), hand), 4, 2);
}

std::string file(const std::vector<FolderFile>& files, const std::string& name) {
  for (const FolderFile& each : files) {
    if (each.name == name) return each.text;
  }
  return "";
}

Job imported(const SimulatedEngine& engine) {
  const std::vector<FolderFile> files = engine_folder(engine);
  const Imported read = import_folder({"f", file(files, "job.toml"), file(files, "readings.csv")});
  EXPECT_TRUE(read.problems.empty()) << read.problems.front().code << " "
                                     << read.problems.front().place.line.value_or(0);
  Folded folded = fold(read.events);
  EXPECT_TRUE(folded.problems.empty());
  return std::move(folded.job);
}

template <class T>
std::vector<T> values(const std::vector<Kept<T>>& kept) {
  std::vector<T> out;
  for (const auto& each : kept) out.push_back(each.value);
  return out;
}

/// Readings in the order they were taken: the import sorts rows by their content.
std::vector<Reading> readings(const Job& job) {
  std::vector<Reading> out = values(job.readings);
  std::sort(out.begin(), out.end(),
            [](const auto& a, const auto& b) { return std::tie(a.setting, *a.order) < std::tie(b.setting, *b.order); });
  return out;
}

TEST(EngineFolder, ImportingGivesTheJobThatWasMadeDirectly) {
  for (const EngineFamily& family : built_in_families()) {
    const SimulatedEngine made = engine(family.id, "mid-drifting");
    const Job read = imported(made);
    EXPECT_EQ(read.id, made.job.id);
    EXPECT_EQ(read.opened->value, made.job.opened->value);
    EXPECT_EQ(values(read.layouts), values(made.job.layouts)) << family.id;
    EXPECT_EQ(values(read.parts), values(made.job.parts)) << family.id;
    EXPECT_EQ(values(read.gauges), values(made.job.gauges)) << family.id;
    EXPECT_EQ(values(read.settings), values(made.job.settings)) << family.id;
    EXPECT_EQ(values(read.limits), values(made.job.limits)) << family.id;
    EXPECT_EQ(readings(read), readings(made.job)) << family.id;
    EXPECT_EQ(read.rule, made.job.rule);
  }
}

TEST(EngineFolder, AndTheSameSizes) {
  for (const Hand& hand : built_in_hands()) {
    const SimulatedEngine made = engine("exp", hand.id);
    const Result<JudgedJob> direct = judge_job(made.job, {{}, usual_accuracy()});
    const Result<JudgedJob> through = judge_job(imported(made), {{}, usual_accuracy()});
    ASSERT_TRUE(direct.ok() && through.ok()) << hand.id;
    // Repeats of one place stand in the order of their event ids, which differ.
    const auto sizes = [](const JudgedJob& job) {
      std::vector<std::tuple<std::string, std::size_t, Ratio, double>> out;
      for (const Size& each : job.sizes.sizes)
        out.emplace_back(each.part, each.cell, each.as_measured, each.estimate);
      std::sort(out.begin(), out.end());
      return out;
    };
    EXPECT_EQ(sizes(direct.value()), sizes(through.value())) << hand.id;
    EXPECT_EQ(direct.value().sizes.sources.size(), through.value().sizes.sources.size()) << hand.id;
  }
}

TEST(EngineFolder, SaysThatItIsInvented) {
  const std::vector<FolderFile> files = engine_folder(engine("one-sleeve", "mid"));
  ASSERT_EQ(files.size(), 3U);
  EXPECT_NE(file(files, "job.toml").find("Invented and simulated"), std::string::npos);
  const std::string truth = file(files, "truth.csv");
  EXPECT_NE(truth.find("invented and simulated"), std::string::npos);
  EXPECT_NE(truth.find("the odd part,bore-"), std::string::npos);
}

TEST(EngineFolder, TheTruthHasEverySize) {
  const SimulatedEngine made = engine("few-one-direction", "mid");
  const std::string truth = file(engine_folder(made), "truth.csv");
  std::size_t rows = 0;
  for (auto at = truth.find("\nsize,"); at != std::string::npos; at = truth.find("\nsize,", at + 1)) ++rows;
  EXPECT_EQ(rows, 24U);
  EXPECT_NE(truth.find("size,bore-4,bottom,pin,84.0"), std::string::npos);
}

}  // namespace
}  // namespace fettle
