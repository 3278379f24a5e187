#include "cli/thumb_command.h"

#include <gtest/gtest.h>

#include "app/part_history.h"
#include "app/record_on_bench.h"
#include "cli/record_text.h"
#include "wire/json_at.h"
#include "wire/record_json.h"

namespace fettle {
namespace {

const std::string kByThumb = std::string(FETTLE_SOURCE_DIR) + "/tests/cli/jobs/by-thumb";

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }
std::string out_of(const std::vector<std::string>& arguments) { return run(arguments, false).out; }

/// Every text in which such a limit decides has the sign and the words.
TEST(ThumbCommand, EveryTextSaysThatARuleOfThumbDecides) {
  const std::string judged = out_of({"judge", kByThumb});
  EXPECT_TRUE(holds(judged, "≤ 0.0780 †  "));
  EXPECT_TRUE(holds(judged, "  Beyond thumb-bore-wear, by a rule of thumb (†)"));
  EXPECT_TRUE(holds(judged, "  † Decided by a rule of thumb"));
  EXPECT_TRUE(holds(judged, "This counts rules of thumb as limits (†): thumb-bore-wear, hearsay.\n"));
  EXPECT_TRUE(holds(judged, "≤ 0.078 mm   † rule of thumb (TM 10-3930-647-14&P ix175 (W-11)), accepted by JB\n"));
  EXPECT_TRUE(holds(out_of({"why", kByThumb, "bore-3", "thumb-bore-wear"}), ": † rule of thumb (TM 10-3930-647-14&P ix175 (W-11)), accepted by JB\n"));
  EXPECT_TRUE(holds(out_of({"judge", kByThumb, "--all-definitions"}), "The limit thumb-bore-wear † ≤ 0.0780"));
  const std::string set = out_of({"set", kByThumb, "--gauge", "bg", "--for", "bore-1"});
  EXPECT_TRUE(holds(set, "hearsay †  ≤ 78.1200 mm"));
  EXPECT_TRUE(holds(set, "† hearsay is a rule of thumb, no maker's figure.\n"));
}

TEST(ThumbCommand, JsonSaysSoToo) {
  const std::string judged = out_of({"judge", kByThumb, "--json"});
  EXPECT_EQ(json_at(judged, "/parts/1/state"), "beyond");
  EXPECT_EQ(json_at(judged, "/parts/1/without_thumb"), "serviceable");
  EXPECT_EQ(json_at(judged, "/parts/0/without_thumb"), "(nothing)");
  EXPECT_EQ(json_at(judged, "/parts/1/verdicts/3/origin/rule_of_thumb"), "true");
  EXPECT_EQ(json_at(judged, "/parts/1/verdicts/3/origin/decision"), "JB");
  EXPECT_EQ(json_at(judged, "/parts/1/verdicts/2/origin/rule_of_thumb"), "false");
  EXPECT_FALSE(holds(judged, "fettle thumb")) << "no hint in the verdicts";
  const std::string set = out_of({"set", kByThumb, "--gauge", "bg", "--for", "bore-1", "--json"});
  EXPECT_EQ(json_at(set, "/pointers/2/rule_of_thumb"), "true");
  EXPECT_EQ(json_at(set, "/pointers/1/rule_of_thumb"), "false");
}

TEST(ThumbCommand, AHistorySaysSo) {
  RecordOnBench bench;
  ASSERT_TRUE(bench.take(read_folder(kByThumb).value()).ok());
  const auto history = part_history(bench.store, "bittern-4", "bore-3").value();
  const std::string text = part_history_text(history, {Language::english, false, false});
  EXPECT_TRUE(holds(text, "  † Decided by a rule of thumb, which is no maker's figure. Without rules of thumb: serviceable.\n")) << text;
  EXPECT_TRUE(holds(text, "thumb-bore-wear †  0.1300 mm   ◨ beyond\n")) << text;
  EXPECT_TRUE(holds(text, "  thumb-bore-wear: † rule of thumb (TM 10-3930-647-14&P ix175 (W-11)), accepted by JB\n")) << text;
  const std::string json = part_history_json(history);
  EXPECT_EQ(json_at(json, "/rebuilds/0/without_thumb"), "serviceable");
  EXPECT_EQ(json_at(json, "/rebuilds/0/verdicts/3/rule_of_thumb"), "true");
  EXPECT_EQ(json_at(json, "/rebuilds/0/verdicts/0/rule_of_thumb"), "false");
}

TEST(ThumbCommand, JudgeNamesWhatHasNoLimitOnceAndOnlyThen) {
  const std::string line = "No limit for wear, worst place against standard (piston). Rules of thumb, none of which counts by itself: fettle thumb --job ...\n";
  const std::string curlew = std::string(FETTLE_SOURCE_DIR) + "/examples/curlew-3";
  EXPECT_TRUE(holds(out_of({"judge", curlew}), "\n" + line));
  EXPECT_FALSE(holds(out_of({"why", curlew, "bore-1", "bore-taper"}), "fettle thumb")) << "bores have what rules of thumb would give";
  EXPECT_TRUE(holds(out_of({"why", kByThumb, "bore-1", "oor"}), "No limit for taper, worse of two axes (cylinder bore); taper per length (cylinder bore). Rules"));
  EXPECT_FALSE(holds(out_of({"judge", std::string(FETTLE_SOURCE_DIR) + "/tests/cli/jobs/bore-and-piston", "--json"}), "fettle thumb"));
}

TEST(ThumbCommand, NothingIsAcceptedWithoutAnIdAndANameOneAtATime) {
  const RunResult block = run({"thumb", "--job", kByThumb, "--accept", "bore-taper", "--by", "JB"}, false);
  EXPECT_EQ(block.exit_code, 0);
  EXPECT_TRUE(holds(block.out, "# Rule of thumb, no maker's figure: taper of a bore over the whole ring travel"));
  EXPECT_TRUE(holds(block.out, "id = \"thumb-bore-taper\"\n"));
  EXPECT_TRUE(holds(block.out, "bound = \"0.0475 mm\"\n"));
  EXPECT_TRUE(holds(block.out, "decision = \"JB\"\nrule_of_thumb = true\naccepted = true\n"));
  const auto error = [](std::vector<std::string> more) {
    more.insert(more.begin(), {"thumb", "--job", kByThumb});
    const RunResult result = run(more, false);
    EXPECT_EQ(result.exit_code, 2);
    EXPECT_TRUE(result.out.empty());
    return result.error;
  };
  EXPECT_TRUE(holds(error({"--accept", "bore-taper"}), "Nobody accepts this rule of thumb."));                                    // cli.thumb_by_nobody
  EXPECT_TRUE(holds(error({"--accept", "bore-wear", "--by", "JB"}), "No rule of thumb \"bore-wear\" is offered to this job."));  // cli.no_thumb_offer
  EXPECT_TRUE(holds(error({"--accept", "piston-wear", "--by", "JB"}), "\"piston-wear\" has no figure yet."));                     // cli.thumb_offer_missing
  EXPECT_TRUE(holds(error({"--accept", "bore-taper", "--accept", "bore-taper-slope", "--by", "JB"}), "--accept"));
  EXPECT_TRUE(holds(error({"gearbox"}), "There is no rule of thumb about \"gearbox\"."));
  EXPECT_TRUE(holds(error({"--length", "3 in"}), "excludes"));
}

TEST(ThumbCommand, OffersOfAJobThatLacksNothing) {
  const std::string out = out_of({"thumb", "bearing-housing", "--job", kByThumb});
  EXPECT_TRUE(holds(out, "There is nothing to offer")) << out;
  EXPECT_FALSE(holds(out, "--accept"));
}

}  // namespace
}  // namespace fettle
