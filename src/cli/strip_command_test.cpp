#include "cli/strip_command.h"

#include <filesystem>
#include <fstream>
#include <gtest/gtest.h>

#include "wire/json_at.h"

namespace fettle {
namespace {

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

/// A folder of its own, gone afterwards.
class StripCommand : public testing::Test {
 protected:
  StripCommand() : folder_(std::filesystem::path(testing::TempDir()) / ("strip-command-" + std::string(testing::UnitTest::GetInstance()->current_test_info()->name()))) {
    std::filesystem::remove_all(folder_);
    std::filesystem::create_directories(folder_);
  }
  ~StripCommand() override { std::filesystem::remove_all(folder_); }

  [[nodiscard]] std::string path(const std::string& name) const { return (folder_ / name).string(); }
  [[nodiscard]] std::string written(const std::string& text) const {
    std::ofstream(path("engine.toml")) << text;
    return path("engine.toml");
  }

 private:
  std::filesystem::path folder_;
};

TEST_F(StripCommand, AnEngineOfNineCylindersIsAFolderThatCanBeStrippedAndJudged) {
  const std::string engine = written("name = \"Wagtail 9\"\n[answers]\ncylinders = 9\nliners = \"wet\"\n");
  const RunResult start = run({"start", engine, "--into", path("job")}, false);
  ASSERT_EQ(start.exit_code, 0) << start.error;
  EXPECT_TRUE(holds(start.out, " parts. Next: fettle strip ")) << start.out;
  const RunResult strip = run({"strip", path("job")}, false);
  ASSERT_EQ(strip.exit_code, 0) << strip.error;
  EXPECT_TRUE(holds(strip.out, "[ ] Clamp the liners and read how far each stands out")) << strip.out;
  EXPECT_TRUE(holds(strip.out, "What could end the job: ")) << strip.out;
  EXPECT_NE(strip.out.find("not known yet", strip.out.find("Main journals")), std::string::npos) << strip.out;
  const RunResult judged = run({"judge", path("job")}, false);
  EXPECT_EQ(judged.exit_code, 1) << "nothing is read, so nothing is within: " << judged.error;
  EXPECT_EQ(run({"start", engine, "--into", path("job")}, false).exit_code, 2) << "nothing is written over";
}

TEST_F(StripCommand, TheQuestionsAreListedWithTheirUsualAnswers) {
  const RunResult asked = run({"start"}, false);
  EXPECT_EQ(asked.exit_code, 0);
  EXPECT_TRUE(holds(asked.out, "cylinders")) << asked.out;
  EXPECT_TRUE(holds(asked.out, "four-stroke, two-stroke")) << asked.out;
  EXPECT_EQ(json_at(run({"start", "--json"}, false).out, "/questions/1/answer"), "4");
  EXPECT_TRUE(holds(run({"--language", "de", "start"}, false).out, "Zylinder"));
}

TEST_F(StripCommand, EverythingWrongInTheFileIsToldAtOnce) {
  const RunResult wrong = run({"start", written("nme = \"x\"\n[answers]\ncylinders = 2.5\nliners = \"wet\"\n"), "--into", path("job")}, false);
  EXPECT_EQ(wrong.exit_code, 2);
  EXPECT_TRUE(holds(wrong.error, "name")) << wrong.error;
  EXPECT_TRUE(holds(wrong.error, "nme")) << wrong.error;
  EXPECT_TRUE(holds(wrong.error, "The answer \"cylinders\" is neither a word nor a whole number.")) << wrong.error;
  // By their codes: engine.answer_kind above; in JSON each says its own.
  const std::string codes = run({"start", written("name = \"x\"\n[answers]\ncylinders = true\n"), "--json"}, false).out;
  EXPECT_TRUE(holds(codes, "engine.answer_kind")) << codes;
  EXPECT_TRUE(holds(run({"start", written("name = \"x\"\n[answers]\n"), "--json"}, false).out, "cli.start_into"));
  const RunResult twice = run({"start", written("name = \"x\"\nleft_out = [\"gearbox\"]\n[answers]\ncylinders = 99\nliners = \"damp\"\n"), "--into", path("job")}, false);
  for (const char* each : {"gearbox", "99", "damp"}) EXPECT_TRUE(holds(twice.error, each)) << twice.error;
  EXPECT_FALSE(std::filesystem::exists(path("job"))) << "nothing was written";
  EXPECT_TRUE(holds(run({"start", written("name = \"x\"\n[answers]\n")}, false).error, "--into"));
}

TEST_F(StripCommand, WhatIsLeftOutTakesItsAssembliesAlong) {
  ASSERT_EQ(run({"start", written("name = \"x\"\nleft_out = [\"valve-stem\"]\n[answers]\ncylinders = 1\n[[group]]\nkind = \"manifold-face\"\ncount = 2\n"), "--into", path("job")}, false).exit_code, 0);
  std::ifstream file(path("job/job.toml"));
  const std::string text((std::istreambuf_iterator<char>(file)), std::istreambuf_iterator<char>());
  EXPECT_FALSE(holds(text, "stem-fit")) << "a fit of a stem that is not there";
  EXPECT_TRUE(holds(text, "guide-1in"));
  EXPECT_TRUE(holds(text, "manifold-face-2"));
}

TEST_F(StripCommand, AnswersAndTicksStandInTheFolder) {
  ASSERT_EQ(run({"start", written("name = \"x\"\n[answers]\ncylinders = 1\n"), "--into", path("job")}, false).exit_code, 0);
  std::ofstream(path("job/job.toml"), std::ios::app) << "\n[[strip]]\nstep = \"head-off\"\nanswer = \"done\"\n\n[[ready]]\nparts = [\"bore-1\"]\nstate = \"clean\"\nat = \"2031-05-04 08:00 +02:00\"\n";
  const RunResult strip = run({"strip", path("job"), "--json"}, false);
  ASSERT_EQ(strip.exit_code, 0) << strip.error;
  EXPECT_TRUE(holds(strip.out, "\"state\": \"lost\""));
  EXPECT_EQ(json_at(strip.out, "/ready/0/parts"), "1");
  std::ofstream(path("job/job.toml"), std::ios::app) << "\n[[strip]]\nstep = \"head-off\"\nanswer = \"cannot\"\n\n[[strip]]\nstep = \"gearbox-off\"\nanswer = \"done\"\n\n[[ready]]\nparts = [\"bore-7\"]\nstate = \"clean\"\n";
  const RunResult wrong = run({"strip", path("job")}, false);
  EXPECT_EQ(wrong.exit_code, 2);
  for (const char* each : {"head-off", "gearbox-off", "bore-7"}) EXPECT_TRUE(holds(wrong.error, each)) << wrong.error;
  const std::string codes = run({"strip", path("job"), "--json"}, false).out;
  for (const char* each : {"job.strip_step_twice", "job.strip_step_unknown", "job.part_unknown"}) EXPECT_TRUE(holds(codes, each)) << codes;
}

}  // namespace
}  // namespace fettle
