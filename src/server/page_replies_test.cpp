#include <gtest/gtest.h>

#include <filesystem>

#include "app/linnet_on_bench.h"
#include "server/page_on_bench.h"

namespace fettle {
namespace {

const std::string kDemo = "/api/jobs/tern-curlew-3";
const std::string kThreeWeeksOn = "2031-05-25T08:12:00.000000Z";
const std::string kSoonAfter = "2031-05-04T08:24:30.000000Z";

struct Replies : PageOnBench {
  void hold(const std::string& name, const std::string& path, const std::map<std::string, std::string>& query = {}) {
    hold_each(name, [&](Language language) { return get(path, query, language); });
  }
  void hold_post(const std::string& name, const std::string& path, const std::string& body) {
    hold_each(name, [&](Language language) { return ask("POST", path, {}, language, body).body; });
  }

 private:
  template <class Ask>
  void hold_each(const std::string& name, const Ask& ask_in) {
    for (const auto& [end, language] : {std::pair("en", Language::english), std::pair("de", Language::german)}) {
      const std::string now = ask_in(language);
      EXPECT_EQ(recorded_reply(name + "." + end, now), now) << name << ": RECORD=1 records it anew, if it is right";
      // A key that no text has comes out in brackets, an argument that was not given in braces.
      EXPECT_EQ(now.find("\"["), std::string::npos) << now;
      for (const char* lost : {"{n}", "{parts}", "{place}", "{part}", "{n|", "[part", "[verdict_page", "[round", "[setting_page", "[ago"}) {
        EXPECT_EQ(now.find(lost), std::string::npos) << name << " " << lost;
      }
    }
  }
};

TEST(PageReplies, OfTheExample) {
  Replies bench;
  ASSERT_TRUE(bench.take(read_folder(kExample).value()).ok());
  bench.clock.at = kThreeWeeksOn;
  bench.hold("bench", "/api/bench");
  bench.hold("engine", kDemo);
  bench.hold("gauges", kDemo + "/gauges", {{"for", "bore-1"}});
  bench.hold("setting-up", kDemo + "/setting-up", {{"gauge", "bore-gauge"}, {"for", "cylinder-bore"}});
  bench.hold("round-closed", kDemo + "/rounds/bore-1");
  bench.hold("round-unread", kDemo + "/rounds/piston-1");
  bench.hold("verdicts", kDemo + "/verdicts");
  bench.hold("events", kDemo + "/events");
  bench.hold("thumb", kDemo + "/thumb");
  bench.hold("strip", kDemo + "/strip");
  bench.hold("next", kDemo + "/next");
}

/// A clearance names the parts that it follows from.
TEST(PageReplies, OfAPair) {
  Replies bench;
  ASSERT_TRUE(bench.take(read_folder(std::string(FETTLE_SOURCE_DIR) + "/tests/cli/jobs/bore-and-piston").value()).ok());
  bench.clock.at = kThreeWeeksOn;
  bench.hold("round-pair", "/api/jobs/bore-and-piston/rounds/fit-1");
}

/// Bores that a person's rules of thumb condemn: every page says by what.
TEST(PageReplies, OfRulesOfThumb) {
  Replies bench;
  const auto taken = bench.take(read_folder(std::string(FETTLE_SOURCE_DIR) + "/tests/cli/jobs/by-thumb").value());
  ASSERT_TRUE(taken.ok());
  bench.clock.at = kThreeWeeksOn;
  const std::string job = "/api/jobs/bittern-4";
  bench.hold("engine-by-thumb", job);
  bench.hold("verdicts-by-thumb", job + "/verdicts");
  bench.hold("thumb-offers", job + "/thumb");
  const auto says = [&](const std::string& path, const std::string& text, const std::map<std::string, std::string>& query = {}) {
    const std::string now = bench.get(path, query);
    EXPECT_NE(now.find(text), std::string::npos) << text << "\n" << now;
  };
  says("/api/bench", "bore 3 is beyond, by a rule of thumb (†)");
  says(job, "\"worry\": \"bore 3 beyond, by a rule of thumb (†)");
  says(job, "\"origin\": \"† rule of thumb (TM 10-3930-647-14&P ix175 (W-11)), accepted by JB\"");
  says(job, "\"origin\": \"† rule of thumb (no source named), accepted by nobody who is named\"");
  says(job + "/verdicts", "bore 3 is beyond, by a rule of thumb (†)");
  says(job + "/verdicts", "limit ≤ 0.0780 mm † (rule of thumb)");
  says(job + "/verdicts", "† rule of thumb (TM 10-3930-647-14&P ix175 (W-11)), accepted by JB.");
  says(job + "/verdicts", "This counts rules of thumb as limits (†): thumb-bore-wear, hearsay.");
  says(job + "/events", "ule of thumb (†) accepted as a limit: Cylinder bores");
  says(job + "/setting-up", "service limit † (rule of thumb) 78.120 mm; with guard band", {{"gauge", "bg"}, {"for", "bore-1"}});
  says(job + "/setting-up", "service limit † (rule of thumb) 78.120: at the limit", {{"gauge", "bg"}, {"for", "bore-1"}});
}

TEST(PageReplies, OfAnOpenRound) {
  Replies bench;
  ASSERT_TRUE(bench.take(half_read()).ok());
  bench.clock.at = kSoonAfter;
  bench.hold("bench-open", "/api/bench");
  bench.hold("engine-open", kDemo);
  bench.hold("round-open", kDemo + "/rounds/bore-3");
  bench.hold("round-second", kDemo + "/rounds/bore-1", {{"second", "1"}, {"who", "JB"}});
  bench.hold("verdicts-open", kDemo + "/verdicts");
}

/// Two people over bore 3, and a proof.
TEST(PageReplies, OfTwoPeople) {
  Replies bench;
  std::vector<LinnetRow> rows = linnet_bores(4);
  for (LinnetRow each : linnet_bore(3)) {
    each.who = "MK";
    rows.push_back(each);
  }
  rows[32].reading = "141 acw";
  rows[14].reading = "28 cw";
  LinnetTold told{rows};
  told.closing = "2 acw";
  ASSERT_TRUE(bench.take(linnet(told)).ok());
  ASSERT_TRUE(append(bench.store, bench.recorded(kLinnet), {VerdictTaken{"bore-3", "service", TakenWord::within, "spare engine", VerdictWord::beyond}}, {"MK", ""}).ok());
  ASSERT_TRUE(append(bench.store, bench.recorded(kLinnet), {FindingSeen{{"bore-4", "a line along", FindingWeight::needs_test, "exhaust side", {}}}}, {"MK", ""}).ok());
  bench.clock.at = kSoonAfter;
  bench.hold("round-twice", "/api/jobs/linnet-4/rounds/bore-3", {{"second", "1"}, {"who", "MK"}});
  bench.hold("round-asked-again", "/api/jobs/linnet-4/rounds/bore-2");
  bench.hold("engine-asked-again", "/api/jobs/linnet-4");
  bench.hold("setting-up-no-kit", "/api/jobs/linnet-4/setting-up", {{"gauge", "bg"}, {"for", "bore-1"}});
  bench.hold("verdicts-overruled", "/api/jobs/linnet-4/verdicts");
  bench.hold_post("proof", "/api/jobs/linnet-4/proof", "{\"gauge\":\"bg\",\"for\":\"bore-1\",\"shows\":\"76\",\"side\":\"clockwise\"}");
}

/// Every page of every job that the tests of the command line have: all kinds, assemblies, rings, gauges found out of true.
TEST(PageReplies, OfEveryJobThatIsThere) {
  int jobs = 0;
  for (const auto& folder : std::filesystem::directory_iterator(std::string(FETTLE_SOURCE_DIR) + "/tests/cli/jobs")) {
    const auto texts = read_folder(folder.path().string());
    if (!texts.ok()) continue;
    Replies bench;
    const auto taken = bench.take(texts.value());
    if (!taken.ok()) continue;  // it needs a catalogue of its own
    ++jobs;
    const std::string job = "/api/jobs/" + taken.value().job;
    std::vector<std::string> paths = {"/api/bench", job, job + "/events", job + "/verdicts", job + "/gauges"};
    for (const auto& part : bench.recorded(taken.value().job).job.parts) paths.push_back(job + "/rounds/" + part.value.id);
    for (const std::string& path : paths) {
      for (const Language language : {Language::english, Language::german}) {
        const HttpResponse answer = bench.ask("GET", path, {}, language);
        EXPECT_EQ(answer.status, 200) << folder.path() << " " << path << " " << answer.body;
        EXPECT_EQ(answer.body.find("\"["), std::string::npos) << folder.path() << " " << path;
        EXPECT_EQ(answer.body.find("{parts}"), std::string::npos) << path;
      }
    }
  }
  EXPECT_GE(jobs, 9);
}

TEST(PageReplies, OfNothingMuch) {
  Replies bench;
  bench.hold("engine-plan", "/api/engine-plan", {{"answers", "cycle:two-stroke,cylinders:2,inlets:2"}});
  bench.hold("bench-empty", "/api/bench");
  bench.hold("kinds", "/api/kinds");
  bench.hold("refused", "/api/jobs/no-such");
  const auto taken = bench.take(bare_and_long());
  ASSERT_TRUE(taken.ok()) << sentence(taken.problems().front(), Language::english);
  bench.hold("bench-long", "/api/bench");
  bench.hold("engine-long", "/api/jobs/long");
  bench.hold("gauges-none", "/api/jobs/long/gauges", {{"for", "bore-1"}});
  bench.hold("round-long", "/api/jobs/long/rounds/bore-1");
  bench.hold("verdicts-long", "/api/jobs/long/verdicts");
}

}  // namespace
}  // namespace fettle
