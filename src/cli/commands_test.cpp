#include "cli/commands.h"

#include <gtest/gtest.h>

#include "cli/table.h"

namespace fettle {
namespace {

const std::string kExamples = std::string(FETTLE_SOURCE_DIR) + "/examples/";
const std::string kJobs = std::string(FETTLE_SOURCE_DIR) + "/tests/cli/jobs/";

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

TEST(Commands, ExitCodesSayWhatKindOfEnd) {
  EXPECT_EQ(run({"judge", kExamples + "curlew-3"}, false).exit_code, 1);
  EXPECT_EQ(run({"definitions"}, false).exit_code, 0);
  EXPECT_EQ(run({"judge", "/no/such/folder"}, false).exit_code, 2);
  EXPECT_EQ(run({}, false).exit_code, 2);
  EXPECT_EQ(run({"grind"}, false).exit_code, 2);
  EXPECT_EQ(run({"judge", kExamples + "curlew-3", "--draws", "-1"}, false).exit_code, 2);
  EXPECT_EQ(run({"--help"}, false).exit_code, 0);
}

TEST(Commands, ColourOnlyOnATerminal) {
  EXPECT_FALSE(holds(run({"judge", kExamples + "curlew-3"}, false).out, "\x1b["));
  EXPECT_TRUE(holds(run({"judge", kExamples + "curlew-3"}, true).out, "\x1b["));
}

TEST(Commands, RefusalsGoToTheErrorOutputAsSentences) {
  const RunResult result = run({"why", kExamples + "curlew-3", "bore-9", "bore-service"}, false);
  EXPECT_EQ(result.exit_code, 2);
  EXPECT_TRUE(result.out.empty());
  EXPECT_TRUE(holds(result.error, "There is no verdict for the part \"bore-9\"")) << result.error;  // cli.no_such_verdict
}

TEST(Commands, OptionsAreChecked) {
  EXPECT_TRUE(holds(run({"judge", kExamples + "curlew-3", "--level", "1.5"}, false).error, "no level between 0.5 and 1"));  // cli.level
  EXPECT_TRUE(holds(run({"understand", "3", "--unit", "furlong"}, false).error, "\"furlong\" is no unit"));                  // cli.unit
}

TEST(Commands, ReadingAgainstLimitCanBeAskedFor) {
  const RunResult result = run({"judge", kExamples + "curlew-3", "--rule", "reading"}, false);
  EXPECT_FALSE(holds(result.out, "◪"));
  EXPECT_TRUE(holds(result.out, "Rule: what was read against the limit"));
}

// The list of limits lost the length that a bound is for.
TEST(Commands, ALimitPerLengthIsListedWithTheLength) {
  const std::string out = run({"judge", kJobs + "six-directions"}, false).out;
  EXPECT_TRUE(holds(out, " per 100 mm ")) << out;
  EXPECT_TRUE(holds(run({"--language", "de", "judge", kJobs + "six-directions"}, false).out, " je 100 mm "));
}

// Of a part with a figure missing and of one with a doubtful reading, "something is missing" was said alike.
TEST(Commands, NotJudgedHasItsTrueReason) {
  const auto last_word = [](const char* job) { return run({"why", kJobs + job, "bore-1", "size"}, false).out; };
  EXPECT_TRUE(holds(last_word("another-size"), "not judged: the part stands at another size than the limit is for."));
  EXPECT_TRUE(holds(last_word("blunder"), "not judged: a reading that does not fit the others has to be taken again first."));
  EXPECT_TRUE(holds(last_word("mid-unread"), "not judged: not every place was read."));
}

// A ratio has no unit, and left two spaces where it would stand.
TEST(Commands, AnEstimateWithoutUnitHasNoGap) {
  const std::string out = run({"why", kJobs + "six-directions", "bore-1", "taper-per-length"}, false).out;
  EXPECT_TRUE(holds(out, "Estimate 0.000150 ± 0.000050 (standard uncertainty)")) << out;
}

TEST(Commands, PlacesAreToldInWords) {
  for (const char* job : {"blunder", "mid-unread"}) {
    const std::string out = run({"--language", "de", "judge", kJobs + job}, false).out;
    EXPECT_FALSE(holds(out, "mid/")) << out;
    EXPECT_TRUE(holds(out, "Mitte") || holds(out, "mittig") || holds(out, "mitten")) << out;
  }
}

// The same remark stood behind every limit of a bore.
TEST(Commands, AnotherSizeIsToldOnceForEachBore) {
  const std::string out = run({"judge", kJobs + "another-size"}, false).out;
  std::size_t times = 0;
  for (auto at = out.find("off their stated size"); at != std::string::npos; at = out.find("off their stated size", at + 1)) ++times;
  EXPECT_EQ(times, 3U) << out;
  EXPECT_TRUE(holds(out, "  new-low, new-high, size: The parts stand ")) << out;
}

// The two moves belong to one place, and the best estimate to all of them.
TEST(Commands, WhyTellsThatTheBestEstimateIsOverAllPlaces) {
  const std::string two = run({"why", kJobs + "blunder", "bore-1", "size"}, false).out;
  EXPECT_TRUE(holds(two, "The best estimate is over all places")) << two;
  EXPECT_TRUE(holds(run({"--language", "de", "why", kJobs + "blunder", "bore-1", "size"}, false).out, "geht über alle Stellen"));
}

// 99.9 % came out as 100 %.
TEST(Commands, ALevelIsPrintedWithAllItsDecimals) {
  const std::string out = run({"judge", kExamples + "curlew-3", "--level", "0.999"}, false).out;
  EXPECT_TRUE(holds(out, "within at 99.9 % or more, beyond at 0.1 % or less")) << out;
}

TEST(Commands, OneGermanWordForAProbability) {
  for (const std::string& folder : {kExamples + "curlew-3", kJobs + "blunder", kJobs + "another-size"}) {
    EXPECT_FALSE(holds(run({"--language", "de", "judge", folder}, false).out, "Chance")) << folder;
  }
}

TEST(Commands, UnderstandShowsTheExactValue) {
  EXPECT_TRUE(holds(run({"understand", "3.307 in"}, false).out, "= 83.9978000 mm exactly (839978000 counts"));
  EXPECT_TRUE(holds(run({"--language", "de", "understand", "3.307 in"}, false).out, "= 83,9978000 mm genau"));
  EXPECT_TRUE(holds(run({"understand", "31 cw"}, false).out, "clockwise"));
  const RunResult mixed = run({"understand", "84,02 mm", "1/256 in"}, false);
  EXPECT_EQ(mixed.exit_code, 2);
  EXPECT_TRUE(holds(mixed.out, "84.0200000 mm exactly"));
  EXPECT_TRUE(holds(mixed.error, "cannot be kept exactly"));
}

TEST(Commands, ASideNeedsNoSign) {
  EXPECT_TRUE(holds(run({"understand", "5½ acw"}, false).out, " 5.5")) << run({"understand", "5½ acw"}, false).out;
}

TEST(Commands, TheLanguageMayStandBehindTheCommand) {
  EXPECT_TRUE(holds(run({"understand", "3.307 in", "--language", "de"}, false).out, "genau"));
}

TEST(Commands, ProblemsComeAsJsonWhenJsonWasAskedFor) {
  const RunResult result = run({"understand", "84.02", "--json"}, false);
  EXPECT_EQ(result.exit_code, 2);
  EXPECT_TRUE(holds(result.out, "\"code\": \"entry.no_unit\""));
}

TEST(Commands, EveryOutputLineIsMadeOfKnownKeys) {
  for (const auto& arguments : std::vector<std::vector<std::string>>{{"judge", kExamples + "curlew-3"},
                                                                     {"judge", kExamples + "curlew-3-set-afresh"},
                                                                     {"why", kExamples + "curlew-3", "bore-3", "bore-service"},
                                                                     {"definitions"},
                                                                     {"gauges"}}) {
    for (const char* language : {"en", "de"}) {
      std::vector<std::string> all = {"--language", language};
      all.insert(all.end(), arguments.begin(), arguments.end());
      const std::string out = run(all, false).out;
      EXPECT_FALSE(out.empty());
      // An unknown key comes out as "[room.key]", an argument that nobody gave as "{name}".
      EXPECT_FALSE(holds(out, "[")) << out.substr(out.find('['), 60);
      EXPECT_FALSE(holds(out, "{")) << out.substr(out.find('{'), 60);
    }
  }
}

TEST(Columns, CountCharactersNotBytes) {
  EXPECT_EQ(columns({{"µm", "x"}, {"abc", "y"}}, 1), " µm   x\n abc  y\n");
  EXPECT_EQ(shown_width("\x1b[38;2;1;2;3mµ\x1b[0m"), 1U);
}

}  // namespace
}  // namespace fettle
