// The commands iso-fit and thumb: what is refused is told on its own line, in both languages, and nothing goes to the output.
#include <gtest/gtest.h>

#include <sstream>

#include "catalogue/catalogue.h"
#include "cli/iso_fit_command.h"
#include "cli/paragraph.h"
#include "cli/table.h"
#include "cli/thumb_command.h"
#include "limits/thumb_rule.h"

namespace fettle {
namespace {

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

void expect_page_width(const std::string& text) {
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) EXPECT_LE(shown_width(line), kPageWidth) << line;
}

TEST(IsoFitCommand, PrintsDeviationsSizesAndClearance) {
  const RunResult english = run_iso_fit({"H7/g6", "80 mm", false}, Language::english);
  EXPECT_EQ(english.exit_code, 0);
  for (const char* part : {"-29 µm", "+30 µm", "79.971 mm", "3.14961 in", "0.010 mm to 0.059 mm of clearance"}) EXPECT_TRUE(holds(english.out, part)) << part;
  const RunResult german = run_iso_fit({"H7/g6", "80 mm", false}, Language::german);
  for (const char* part : {"-29 µm", "79,971 mm", "3,14961 in", "0,010 mm bis 0,059 mm Spiel"}) EXPECT_TRUE(holds(german.out, part)) << part;
  for (Language language : {Language::english, Language::german}) {
    for (const char* code : {"H7/g6", "K7/h6", "P7/h6", "JS01"}) expect_page_width(run_iso_fit({code, "499.9999 mm", false}, language).out);
  }
}

TEST(IsoFitCommand, RefusesWithASentence) {
  for (Language language : {Language::english, Language::german}) {
    const RunResult refused = run_iso_fit({"j9", "80 mm", false}, language);
    EXPECT_EQ(refused.exit_code, 2);
    EXPECT_TRUE(refused.out.empty());
    EXPECT_TRUE(holds(refused.error, "j9")) << refused.error;
  }
  EXPECT_TRUE(holds(run_iso_fit({"H7", "80 bar", true}, Language::english).out, "entry.")) << "a pressure is no size";
  EXPECT_TRUE(holds(run_iso_fit({"H7", "501 mm", true}, Language::english).out, "limits.fit_nominal_too_large"));
}

TEST(ThumbCommand, EveryRuleHasItsSentenceAndItsSource) {
  for (Language language : {Language::english, Language::german}) {
    const RunResult all = run_thumb({"", "4.000 in", "4.5 in", "6 in", ".001 in", "2 in", false}, language);
    EXPECT_EQ(all.exit_code, 0);
    EXPECT_FALSE(holds(all.out, "[")) << "a key without a sentence";
    expect_page_width(all.out);
    for (const ThumbRule& each : thumb_rules()) {
      EXPECT_TRUE(holds(all.out, "\n" + each.id + ": ")) << each.id;
      EXPECT_NE(word_for("thumb.rule." + each.id, language), each.id);
      for (const std::string& about : each.about) {
        const RunResult one = run_thumb({about, "", "", "", "", "", false}, language);
        EXPECT_FALSE(holds(one.out, "[")) << about;
        EXPECT_TRUE(holds(one.out, each.id)) << about;
      }
    }
  }
}

TEST(ThumbCommand, SaysFirstThatNoneCounts) {
  const std::string shown = run_thumb({"cylinder-bore", "100 mm", "", "", "", "", false}, Language::english).out;
  EXPECT_LT(shown.find("none counts as a limit"), shown.find("at most 0.1 mm (0.00394 in)")) << shown;
  EXPECT_TRUE(holds(shown, "give --length")) << shown;
}

TEST(ThumbCommand, RefusesWithASentence) {
  const RunResult unknown = run_thumb({"gearbox", "", "", "", "", "", false}, Language::english);
  EXPECT_EQ(unknown.exit_code, 2);
  EXPECT_TRUE(holds(unknown.error, "no rule of thumb about \"gearbox\"")) << unknown.error;  // cli.no_thumb_rule
  EXPECT_TRUE(holds(run_thumb({"piston", "-4 in", "", "", "", "", true}, Language::english).out, "limits.thumb_size_not_positive"));
}

}  // namespace
}  // namespace fettle
