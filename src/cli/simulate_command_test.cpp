#include "cli/simulate_command.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>

namespace fettle {
namespace {

class Counts final : public Progress {
 public:
  explicit Counts(long stop_after) : stop_after_(stop_after) {}
  [[nodiscard]] bool tell(long done, long all) override {
    last_ = done;
    all_ = all;
    return done < stop_after_;
  }
  long last_ = 0;
  long all_ = 0;

 private:
  long stop_after_;
};

class SimulateCommand : public testing::Test {
 protected:
  SimulateCommand() : folder_(std::filesystem::temp_directory_path() / ("fettle-simulate-" + std::to_string(::getpid()))) {}
  ~SimulateCommand() override { std::filesystem::remove_all(folder_); }
  RunResult run(const SimulateAsked& asked) { return run_simulate(asked, Language::english, never_); }
  static SimulateAsked small() {
    SimulateAsked asked;
    asked.families = {"exp"};
    asked.engines = 12;
    return asked;
  }
  std::filesystem::path folder_;
  Counts never_{1'000'000};
};

TEST_F(SimulateCommand, UnknownNamesComeTogether) {
  SimulateAsked asked = small();
  asked.families = {"flat"};
  asked.hands = {"sloppy"};
  const RunResult out = run(asked);
  EXPECT_EQ(out.exit_code, 2);
  EXPECT_NE(out.error.find("no hand \"sloppy\""), std::string::npos) << out.error;  // app.unknown_hand
  EXPECT_NE(out.error.find("no family \"flat\""), std::string::npos) << out.error;  // app.unknown_family
}

TEST_F(SimulateCommand, StopsWhenToldTo) {
  SimulateAsked asked = small();
  asked.engines = 200;
  asked.families = {"exp", "barrel"};
  Counts soon(250);  // in the second family
  const RunResult out = run_simulate(asked, Language::english, soon);
  EXPECT_EQ(out.exit_code, 0);
  EXPECT_EQ(soon.all_, 400);
  EXPECT_LT(soon.last_, 300);
  EXPECT_NE(out.out.find("Stopped"), std::string::npos);
  EXPECT_NE(out.out.find("exp "), std::string::npos);
  EXPECT_EQ(out.out.find("barrel "), std::string::npos);
}

TEST_F(SimulateCommand, WritesEnginesAsFoldersThatCanBeJudged) {
  SimulateAsked asked = small();
  asked.engines = 2;
  asked.write = (folder_ / "engines").string();
  EXPECT_EQ(run(asked).exit_code, 0);
  const std::string first = asked.write + "/exp-mid-0";
  EXPECT_TRUE(std::filesystem::exists(first + "/truth.csv"));
  const RunResult judged = fettle::run({"judge", first}, false);
  EXPECT_LE(judged.exit_code, 1) << judged.error;
  EXPECT_NE(judged.out.find("4 worn parts of one kind"), std::string::npos) << judged.out;
  // A second time nothing is overwritten.
  EXPECT_EQ(run(asked).exit_code, 2);
}

TEST_F(SimulateCommand, TakesFamiliesOfOnesOwn) {
  std::filesystem::create_directories(folder_);
  const std::string file = (folder_ / "mine.toml").string();
  std::ifstream built_in(std::string(FETTLE_SOURCE_DIR) + "/src/simulate/data/families.toml");
  std::string usual((std::istreambuf_iterator<char>(built_in)), std::istreambuf_iterator<char>());
  usual = usual.substr(0, usual.find("[[family]]"));
  std::ofstream(file) << usual << R"([[family]]
id = "waisted"
about = "largest at both ends"
component = [
  { id = "wear", pattern = "round", profile = "bell", amount = ["20 µm", "90 µm"], length = "0.3", likeness = "0.2" },
]
)";
  SimulateAsked asked = small();
  asked.families.clear();
  asked.families_file = file;
  const RunResult out = run(asked);
  EXPECT_EQ(out.exit_code, 0) << out.error;
  EXPECT_NE(out.out.find("waisted"), std::string::npos);
  asked.families_file = (folder_ / "none.toml").string();
  EXPECT_EQ(run(asked).exit_code, 2);
}

TEST_F(SimulateCommand, WritesAReportWithPictures) {
  SimulateAsked asked = small();
  asked.engines = 60;
  asked.report = (folder_ / "report").string();
  const RunResult out = run(asked);
  EXPECT_EQ(out.exit_code, 0) << out.error;
  for (const char* name : {"scores.txt", "scores.json", "losses-mid.svg", "chances-mid.svg"}) {
    EXPECT_TRUE(std::filesystem::exists(asked.report + "/" + name)) << name;
  }
}

}  // namespace
}  // namespace fettle
