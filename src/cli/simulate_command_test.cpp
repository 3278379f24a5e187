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
  // A second time nothing is overwritten, and the one engine that is there already keeps all others from being written.
  asked.engines = 3;
  const RunResult again = run(asked);
  EXPECT_EQ(again.exit_code, 2);
  EXPECT_NE(again.error.find("already holds 2 names that would be written, the first of them \"exp-mid-0\""), std::string::npos)
      << again.error;  // app.names_taken
  EXPECT_FALSE(std::filesystem::exists(asked.write + "/exp-mid-2"));
}

// Everything was reckoned first, and then the scores were lost.
TEST_F(SimulateCommand, AReportThatCannotBeWrittenIsToldBeforeAnythingIsSimulated) {
  SimulateAsked asked = small();
  asked.report = (folder_ / "report").string();
  std::filesystem::create_directories(folder_ / "report");
  std::ofstream(folder_ / "report" / "scores.json") << "{}";
  const RunResult taken = run(asked);
  EXPECT_EQ(taken.exit_code, 2);
  EXPECT_NE(taken.error.find("already holds 1 name that would be written, the first of them \"scores.json\""), std::string::npos)
      << taken.error;
  EXPECT_EQ(never_.last_, 0);
  asked.report += "/scores.json";
  const RunResult no_folder = run(asked);
  EXPECT_EQ(no_folder.exit_code, 2);
  EXPECT_NE(no_folder.error.find("cannot be written"), std::string::npos) << no_folder.error;
  EXPECT_EQ(never_.last_, 0);
  // What lies there beside the names to be written is no hindrance.
  asked.report = folder_.string();
  EXPECT_EQ(run(asked).exit_code, 0);
  EXPECT_TRUE(std::filesystem::exists(folder_ / "scores.json"));
}

TEST_F(SimulateCommand, ScoresThatCannotBeWrittenAfterAllAreShown) {
  SimulateAsked asked = small();
  asked.report = folder_.string();
  std::filesystem::create_directories(folder_ / "losses-mid.svg");  // an empty folder is found only when the file is to be written
  const RunResult out = run(asked);
  EXPECT_EQ(out.exit_code, 2);
  EXPECT_NE(out.error.find("losses-mid.svg\" is there already"), std::string::npos) << out.error;
  EXPECT_NE(out.out.find("12 engines of each family"), std::string::npos) << out.out;
}

// They were passed over without a word.
TEST_F(SimulateCommand, OptionsThatWouldDoNothingAreRefusedTogether) {
  SimulateAsked asked = small();
  asked.write = (folder_ / "engines").string();
  asked.report = (folder_ / "report").string();
  asked.exact = 5;
  asked.hands = {"sloppy"};
  const RunResult out = run(asked);
  EXPECT_EQ(out.exit_code, 2);
  for (const char* each : {"--report does nothing beside --write.", "--exact does nothing beside --write.", "no hand \"sloppy\""}) {
    EXPECT_NE(out.error.find(each), std::string::npos) << each << "\n" << out.error;  // cli.useless_option
  }
  EXPECT_FALSE(std::filesystem::exists(folder_));
  asked = small();
  asked.write = (folder_ / "engines").string();
  asked.json = true;
  const RunResult as_json = run(asked);
  EXPECT_EQ(as_json.exit_code, 2);
  EXPECT_NE(as_json.out.find("\"cli.useless_option\""), std::string::npos) << as_json.out;
  asked.list = true;
  EXPECT_NE(run(asked).out.find("--list"), std::string::npos);
}

// 2^63 and above came out negative.
TEST_F(SimulateCommand, ALargeSeedIsPrintedAsItWasTyped) {
  SimulateAsked asked = small();
  asked.seed = 18'446'744'073'709'551'615U;
  EXPECT_NE(run(asked).out.find("seed 18446744073709551615;"), std::string::npos) << run(asked).out;
  asked.json = true;
  EXPECT_NE(run(asked).out.find("\"seed\": 18446744073709551615"), std::string::npos);
}

// The losses came from the first few engines, and the footnote named all.
TEST_F(SimulateCommand, TheFootnoteTellsWhichEnginesTheLossesComeFrom) {
  SimulateAsked asked = small();
  const std::string plain = run(asked).out;
  EXPECT_NE(plain.find("12 engines of each family"), std::string::npos) << plain;
  EXPECT_NE(plain.find("over all of them, against the truth"), std::string::npos) << plain;
  asked.exact = 4;
  const std::string exact = run(asked).out;
  EXPECT_NE(exact.find("12 engines of each family"), std::string::npos) << exact;
  EXPECT_NE(exact.find("over the first 4 of each family, by its own posterior; good"), std::string::npos) << exact;
  asked.families.push_back("one-sleeve");  // has no posterior
  EXPECT_NE(run(asked).out.find("where it has none"), std::string::npos) << run(asked).out;
}

TEST_F(SimulateCommand, GermanTablesHaveTheDecimalComma) {
  const RunResult out = run_simulate(small(), Language::german, never_);
  EXPECT_NE(out.out.find("1,00"), std::string::npos) << out.out;
  EXPECT_EQ(out.out.find("1.00"), std::string::npos) << out.out;
}

TEST_F(SimulateCommand, TheListTellsWhatFamiliesAndHandsAre) {
  SimulateAsked asked;
  asked.list = true;
  const std::string out = run(asked).out;
  EXPECT_NE(out.find("\nmid                 the usual hand"), std::string::npos) << out;
  EXPECT_NE(out.find("exp                             wear greatest at the top"), std::string::npos) << out;
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
