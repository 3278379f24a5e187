#include "cli/kinds_command.h"

#include <gtest/gtest.h>

#include <sstream>

#include "catalogue/catalogue.h"
#include "cli/paragraph.h"
#include "cli/table.h"

namespace fettle {
namespace {

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

/// As a terminal would show it in one line.
std::string unbroken(const std::string& text) {
  std::string out;
  std::istringstream words(text);
  for (std::string word; words >> word;) out += (out.empty() ? "" : " ") + word;
  return out;
}

TEST(KindsCommand, ListsEveryKind) {
  for (Language language : {Language::english, Language::german}) {
    const RunResult list = run_kinds({"", false}, language);
    EXPECT_EQ(list.exit_code, 0);
    for (const Kind& kind : catalogue().kinds) EXPECT_TRUE(holds(list.out, kind.id + "  (")) << kind.id;
  }
}

TEST(KindsCommand, ShowsEveryLineWithItsSource) {
  for (Language language : {Language::english, Language::german}) {
    for (const Kind& kind : catalogue().kinds) {
      const std::string shown = unbroken(run_kinds({kind.id, false}, language).out);
      const auto expect_lines = [&](const char* list, const std::vector<KindLine>& lines) {
        for (const KindLine& each : lines) {
          EXPECT_TRUE(holds(shown, unbroken(word_for(std::string(list) + each.id, language)))) << kind.id << " " << each.id;
          EXPECT_TRUE(holds(shown, unbroken(each.origin))) << kind.id << " " << each.id;
        }
      };
      expect_lines("how.", kind.how);
      expect_lines("mistake.", kind.mistakes);
      expect_lines("caution.", kind.cautions);
    }
  }
}

/// Columns of places are not broken: their names are short enough.
TEST(KindsCommand, FitsThePage) {
  for (Language language : {Language::english, Language::german}) {
    std::vector<std::string> ids = {""};
    for (const Kind& kind : catalogue().kinds) ids.push_back(kind.id);
    for (const std::string& id : ids) {
      std::istringstream lines(run_kinds({id, false}, language).out);
      for (std::string line; std::getline(lines, line);) EXPECT_LE(shown_width(line), kPageWidth) << id << ": " << line;
    }
  }
}

TEST(KindsCommand, CautionsStandBeforeTheWork) {
  const std::string shown = run_kinds({"leak-down", false}, Language::english).out;
  EXPECT_LT(shown.find("Take care"), shown.find("How to measure it"));
  EXPECT_TRUE(holds(shown, "local safety rules"));
}

TEST(KindsCommand, AnUnknownIdIsToldWithWhatIsNear) {
  const RunResult near = run_kinds({"valve-sprng", false}, Language::english);
  EXPECT_EQ(near.exit_code, 2);
  EXPECT_TRUE(near.out.empty());
  EXPECT_TRUE(holds(near.error, "there is \"valve-spring\"")) << near.error;  // cli.misspelt_kind
  const RunResult far = run_kinds({"gearbox", false}, Language::english);
  EXPECT_TRUE(holds(far.error, "no kind of part \"gearbox\". Choose from: cylinder-bore, ")) << far.error;  // cli.no_such_kind
  const RunResult json = run_kinds({"gearbox", true}, Language::german);
  EXPECT_EQ(json.exit_code, 2);
  EXPECT_TRUE(holds(json.out, "\"cli.no_such_kind\"")) << json.out;
  EXPECT_TRUE(json.error.empty());
}

}  // namespace
}  // namespace fettle
