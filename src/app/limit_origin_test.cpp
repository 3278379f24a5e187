#include "app/limit_origin.h"

#include <gtest/gtest.h>

#include "app/export_job.h"
#include "app/linnet_on_bench.h"
#include "app/verdict_rows.h"
#include "app/verdicts_table.h"
#include "app/whole_engine.h"
#include "text/sentence.h"

namespace fettle {
namespace {

std::string limit_text_of(const std::string& id, const std::string& definition, const std::string& role, const std::string& side, const std::string& bound, bool thumb) {
  std::string out = "[[limit]]\nid = \"" + id + "\"\nkind = \"cylinder-bore\"\ndefinition = \"" + definition + "\"\nrole = \"" + role + "\"\nside = \"" + side + "\"\nbound = \"" + bound + "\"\n";
  if (definition == "wear-1") out += "standard = \"78.000 mm\"\n";
  return out + (thumb ? "book = \"a page\"\ndecision = \"JB\"\nrule_of_thumb = true\naccepted = true\n" : "book = \"Linnet notes (invented)\"\npage = \"14\"\n");
}

struct JudgedOnBench : RecordOnBench {
  RecordedJob log;
  JudgedJob judged;

  explicit JudgedOnBench(const std::string& limits) : log(taken(limits)), judged(judge_job(log.job, {std::nullopt, usual_accuracy()}).value()) {}

  [[nodiscard]] const PartState& state(const std::string& part) const {
    return *std::find_if(judged.judgement.states.begin(), judged.judgement.states.end(), [&](const auto& each) { return each.part == part; });
  }
  [[nodiscard]] std::string reasons(const std::string& part) const {
    std::string out;
    for (const Message& each : state(part).reasons) out += sentence(each, Language::english) + "\n";
    return out;
  }

 private:
  RecordedJob taken(const std::string& limits) {
    LinnetTold told{linnet_bores(4)};
    told.limits = false;
    FolderTexts texts = linnet(told);
    texts.job_toml += limits;
    EXPECT_TRUE(take(texts).ok());
    return recorded(kLinnet);
  }
};

const std::string kNew = limit_text_of("new-low", "size-3", "new", "at-least", "78.000 mm", false) + limit_text_of("new-high", "size-1", "new", "at-most", "78.020 mm", false);
const std::string kWearByThumb = limit_text_of("thumb-wear", "wear-1", "service", "at-most", "0.110 mm", true);

TEST(LimitOrigin, APartSaysThatARuleOfThumbDecidedAndWhatItWouldBeWithout) {
  const JudgedOnBench bench(kNew + limit_text_of("oor", "oor-1", "service", "at-most", "0.200 mm", false) + kWearByThumb);
  EXPECT_EQ(bench.state("bore-3").word, StateWord::beyond);
  EXPECT_EQ(bench.state("bore-3").without_thumb, StateWord::serviceable);
  EXPECT_EQ(bench.reasons("bore-3"), "Beyond thumb-wear, by a rule of thumb (†): wear, worst place against standard.\n"
                                     "† Decided by a rule of thumb, which is no maker's figure. Without rules of thumb: serviceable.\n");
  EXPECT_EQ(bench.state("bore-1").word, StateWord::serviceable);
  EXPECT_FALSE(bench.state("bore-1").without_thumb) << "the book says the same";
}

/// Within by a rule of thumb alone is no less its word.
TEST(LimitOrigin, ServiceableByARuleOfThumbAloneSaysSo) {
  const JudgedOnBench bench(kWearByThumb);
  EXPECT_EQ(bench.state("bore-1").word, StateWord::serviceable);
  EXPECT_EQ(bench.state("bore-1").without_thumb, StateWord::not_judged);
  EXPECT_NE(bench.reasons("bore-1").find("Without rules of thumb: not judged."), std::string::npos) << bench.reasons("bore-1");
}

TEST(LimitOrigin, WhereTheBookCondemnsItTheBookDecides) {
  const JudgedOnBench bench(kNew + limit_text_of("service", "size-1", "service", "at-most", "78.100 mm", false) + kWearByThumb);
  EXPECT_EQ(bench.state("bore-3").word, StateWord::beyond);
  EXPECT_FALSE(bench.state("bore-3").without_thumb);
  EXPECT_EQ(bench.reasons("bore-3"), "Beyond its limit service: largest size at the stations.\n"
                                     "Beyond thumb-wear, by a rule of thumb (†): wear, worst place against standard.\n");
}

/// A service limit by a rule of thumb stands before the new limits of the book, which would condemn the part.
TEST(LimitOrigin, ARuleOfThumbThatPassesWhatTheBookDoesNotIsNamed) {
  const JudgedOnBench bench(kNew + kWearByThumb);
  EXPECT_EQ(bench.state("bore-1").word, StateWord::serviceable);
  EXPECT_EQ(bench.state("bore-1").without_thumb, StateWord::beyond);
}

TEST(LimitOrigin, TheEngineAsAWholeSaysSo) {
  JudgedOnBench bench(kNew + limit_text_of("oor", "oor-1", "service", "at-most", "0.200 mm", false) + kWearByThumb);
  EXPECT_EQ(thumb_limits_at_work(bench.judged), (std::vector<std::string>{"thumb-wear"}));
  std::string spoken;
  for (const Message& each : spoken_verdict(bench.judged)) spoken += sentence(each, Language::english) + "; ";
  EXPECT_NE(spoken.find("bore 3 is beyond, by a rule of thumb (†); "), std::string::npos) << spoken;
  EXPECT_NE(spoken.find("bores 1, 2 and 4 may go back; "), std::string::npos) << spoken;
  const WholeEngine whole = whole_engine(bench.log, &bench.judged, Asking{"", ""});
  ASSERT_FALSE(whole.worry.empty());
  EXPECT_EQ(sentence(whole.worry.front(), Language::german), "Bohrung 3 außerhalb, nach einer Faustregel (†)");
  EXPECT_EQ(sentence(whole.groups.front().words.front(), Language::english), "bore 3 is beyond, by a rule of thumb (†)");
  EXPECT_TRUE(thumb_limits_at_work(JudgedOnBench(kNew).judged).empty());
}

TEST(LimitOrigin, AnExportedTableAndAnExportedFolderSaySo) {
  const JudgedOnBench bench(kNew + kWearByThumb);
  const DataTable table = verdicts_table(bench.judged);
  const auto column = [&](const std::string& name) {
    return static_cast<std::size_t>(std::find_if(table.columns.begin(), table.columns.end(), [&](const auto& each) { return each.name == name; }) - table.columns.begin());
  };
  int by_thumb = 0;
  for (const auto& row : table.rows) {
    const bool thumb = row[column("limit")] == "thumb-wear";
    EXPECT_EQ(row[column("rule_of_thumb")], thumb ? "yes" : "no");
    if (!thumb) continue;
    EXPECT_EQ(row[column("decision")], "JB");
    EXPECT_EQ(row[column("book")], "a page");
    ++by_thumb;
  }
  EXPECT_EQ(by_thumb, 4);
}

TEST(LimitOrigin, InWords) {
  Limit limit{};
  limit.origin.book = "a page";
  limit.origin.decision = "JB";
  limit.origin.rule_of_thumb = true;
  EXPECT_EQ(sentence(origin_message(limit), Language::english), "† rule of thumb (a page), accepted by JB");
  EXPECT_EQ(sentence(origin_message(limit), Language::german), "† Faustregel (a page), angenommen von JB");
  EXPECT_EQ(thumb_sign(limit), " †");
  limit.origin.book.clear();
  limit.origin.decision.clear();
  EXPECT_EQ(sentence(origin_message(limit), Language::english), "† rule of thumb (no source named), accepted by nobody who is named");
  limit.origin = {};
  limit.origin.book = "Book";
  limit.origin.edition = "2nd";
  limit.origin.page = "7";
  EXPECT_EQ(sentence(origin_message(limit), Language::english), "Book, 2nd, page 7");
  EXPECT_EQ(thumb_sign(limit), "");
}

}  // namespace
}  // namespace fettle
