#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <sstream>

#include "cli/commands.h"

namespace fettle {
namespace {

namespace fs = std::filesystem;

const std::string kRoot = FETTLE_SOURCE_DIR;
const std::string kExampleStudy = kRoot + "/examples/curlew-3/bore-gauge-study.toml";

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

/// The demo with the example's study in it.
class StudiedFolder : public testing::Test {
 protected:
  StudiedFolder() : folder_(fs::temp_directory_path() / ("fettle-study-" + std::to_string(::getpid()))) {
    fs::create_directories(folder_);
    fs::copy_file(kRoot + "/examples/curlew-3/readings.csv", folder_ / "readings.csv", fs::copy_options::overwrite_existing);
    std::ifstream demo(kRoot + "/examples/curlew-3/job.toml");
    std::ostringstream text;
    text << demo.rdbuf();
    std::ofstream(folder_ / "job.toml") << text.str() << "\n" << run({"gauge-study", kExampleStudy, "--lines"}, false).out;
  }
  ~StudiedFolder() override { fs::remove_all(folder_); }
  StudiedFolder(const StudiedFolder&) = delete;
  StudiedFolder& operator=(const StudiedFolder&) = delete;

  fs::path folder_;
};

// What the command writes for a job is read by the job, said of its readings, and told where a verdict is unfolded.
TEST_F(StudiedFolder, ItsReadingsTakeTheRepeatability) {
  const RunResult judged = run({"judge", folder_.string()}, false);
  EXPECT_TRUE(has(judged.out, "repeatability of a gauge study")) << judged.out << judged.error;
  EXPECT_FALSE(has(run({"judge", kRoot + "/examples/curlew-3"}, false).out, "gauge study"));
  EXPECT_TRUE(has(run({"why", folder_.string(), "bore-3", "bore-service"}, false).out, "Repeatability of bore-gauge: from a gauge study, "));
  EXPECT_TRUE(has(run({"--language", "de", "why", folder_.string(), "bore-3", "bore-service"}, false).out, "aus einer Messmitteluntersuchung"));
  EXPECT_TRUE(has(run({"judge", folder_.string(), "--json"}, false).out, "\"gauge study, 2031-05-01, "));
}

TEST(GaugeStudyCommand, SaysWhyItRefuses) {
  const RunResult nobody = run({"gauge-study", kExampleStudy, "--person", "Clara"}, false);
  EXPECT_EQ(nobody.exit_code, 2);
  EXPECT_TRUE(nobody.out.empty());
  EXPECT_TRUE(has(nobody.error, "Anna, Bert")) << nobody.error;
  EXPECT_EQ(run({"gauge-study", kExampleStudy, "--lines", "--json"}, false).exit_code, 2);
}

// Every sentence that only some studies need.
TEST(GaugeStudyCommand, TellsWhatIsOddOfAStudy) {
  const std::string apart = run({"gauge-study", kRoot + "/tests/cli/studies/apart.toml"}, false).out;
  EXPECT_TRUE(has(apart, "lies outside")) << apart;
  EXPECT_TRUE(has(apart, "hardly"));
  const std::string five = run({"gauge-study", kRoot + "/tests/cli/studies/five-repeats.toml"}, false).out;
  EXPECT_TRUE(has(five, "One part:")) << five;
  EXPECT_TRUE(has(five, "hidden behind the division")) << five;
  EXPECT_TRUE(has(five, "person = \"Anna\"")) << five;
  const std::string alike = run({"gauge-study", kRoot + "/tests/cli/studies/alike.toml"}, false).out;
  EXPECT_TRUE(has(alike, "All readings of each part were alike")) << alike;
  EXPECT_TRUE(has(alike, "by ranges") || has(alike, "no figure by ranges")) << alike;
}

}  // namespace
}  // namespace fettle
