#include "app/sheet_change.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "app/open_folder.h"
#include "app/record_on_bench.h"
#include "catalogue/catalogue.h"
#include "limits/sheet_file.h"

namespace fettle {
namespace {

using Pairs = std::set<std::pair<std::string, std::string>>;

const std::string kRow = "[[row]]\nid = \"bore\"\nwhat = \"Cylinder bore\"\nkind = \"cylinder-bore\"\ncharacteristic = \"size\"\npage = \"12\"\n";
const std::string kOval = "[[row]]\nid = \"oor\"\nwhat = \"Out of round\"\nkind = \"cylinder-bore\"\ncharacteristic = \"out-of-round\"\npage = \"12\"\n";

const std::string kTaper = "[[row]]\nid = \"taper\"\nwhat = \"Taper\"\nkind = \"cylinder-bore\"\ncharacteristic = \"taper\"\npage = \"12\"\n";

SheetEntered version(const std::string& rows) { return {"book", read_sheet_file("[sheet]\nbook = \"Invented three\"\n" + rows, "s.toml", catalogue()).value(), ""}; }
JudgeOptions options() { return {std::nullopt, usual_accuracy(), JudgeDetail::verdicts}; }
Job example() { return open_folder(kExample).value(); }
Job with(const Job& job, const SheetEntered& of) {
  Problems none;
  return with_sheet(job, of, none);
}

/// What a person would find by laying the two judgements side by side: every verdict whose word, bound or chance is another.
Pairs found_by_hand(const Job& before, const Job& now) {
  const JudgedJob a = judge_job(before, options()).value();
  const JudgedJob b = judge_job(now, options()).value();
  const auto lines = [](const Judgement& judgement) {
    std::map<std::pair<std::string, std::string>, std::string> out;
    for (const Verdict& each : judgement.verdicts) {
      std::string text = std::string(verdict_word_name(each.word)) + " " + each.bound.decimal(3) + " " + (each.chance ? std::to_string(each.chance->value) : "-");
      for (const Message& remark : each.remarks) text += " " + remark.key;
      out[{each.part, each.limit}] = text;
    }
    return out;
  };
  const auto first = lines(a.judgement);
  const auto second = lines(b.judgement);
  Pairs out;
  for (const auto& [key, text] : first) {
    const auto other = second.find(key);
    if (other == second.end() || other->second != text) out.insert(key);
  }
  for (const auto& [key, text] : second) {
    if (!first.contains(key)) out.insert(key);
  }
  return out;
}
Pairs listed(const LimitsChanged& changed) {
  Pairs out;
  for (const auto& each : changed.verdicts) EXPECT_TRUE(out.insert({each.part, each.limit}).second) << each.part << " " << each.limit << " is told twice";
  return out;
}

TEST(SheetChange, ListsExactlyWhatDiffers) {
  const Job job = example();
  const std::vector<SheetEntered> versions = {version(kRow + "wear = \"84.100 mm\"\n"),
                                              version(kRow + "wear = \"84.060 mm\"\n"),
                                              version(kRow + "wear = \"84.060 mm (3.3495 in)\"\n"),
                                              version(kRow + "wear = \"84.100 mm\"\n" + kOval + "wear = \"0.010 mm\"\n"),
                                              version(kRow + "wear = \"84.100 mm\"\n" + kOval + "wear = \"0.050 mm\"\n")};
  Job before = job;
  for (const SheetEntered& each : versions) {
    const LimitsChanged changed = sheet_change(before, each, options()).value();
    EXPECT_EQ(listed(changed), found_by_hand(before, with(before, each)));
    EXPECT_FALSE(changed.limits.empty());
    before = with(before, each);
  }
}

TEST(SheetChange, TheSameSheetChangesNothing) {
  const SheetEntered same = version(kRow + "wear = \"84.100 mm\"\n");
  const LimitsChanged changed = sheet_change(with(example(), same), same, options()).value();
  EXPECT_TRUE(changed.limits.empty() && changed.verdicts.empty() && changed.states.empty());
  EXPECT_EQ(changed.engine_before, changed.engine_now);
}

TEST(SheetChange, WordsThatBecomeOthersComeFirstAndMoveTheirParts) {
  Job job = example();
  std::erase_if(job.limits, [](const auto& each) { return each.value.role == LimitRole::service; });
  job.findings.clear();
  std::erase_if(job.parts, [](const auto& each) { return each.value.kind != "cylinder-bore"; });
  const Job wide = with(job, version(kRow + "wear = \"84.500 mm\"\n"));
  const LimitsChanged changed = sheet_change(wide, version(kRow + "wear = \"84.030 mm\"\n"), options()).value();
  ASSERT_FALSE(changed.verdicts.empty());
  EXPECT_TRUE(changed.verdicts.front().other_word());
  EXPECT_EQ(changed.verdicts.front().before->word, VerdictWord::within);
  EXPECT_EQ(changed.verdicts.front().now->word, VerdictWord::beyond);
  EXPECT_FALSE(changed.states.empty());
  EXPECT_EQ(changed.engine_before, VerdictWord::within);
  EXPECT_EQ(changed.engine_now, VerdictWord::beyond);
}

TEST(SheetChange, IsWhatFoldMakesOfTheEvent) {
  RecordOnBench bench;
  ASSERT_TRUE(bench.take(read_folder(kExample).value()).ok());
  const RecordedJob there = bench.recorded("tern-curlew-3");
  const SheetEntered entered = version(kRow + "wear = \"84.060 mm\"\n");
  ASSERT_TRUE(append(bench.store, there, {entered}, bench.doing).ok());
  const Job folded = bench.recorded("tern-curlew-3").job;
  const Job made = with(there.job, entered);
  ASSERT_EQ(folded.limits.size(), made.limits.size());
  for (std::size_t i = 0; i < folded.limits.size(); ++i) EXPECT_EQ(folded.limits[i].value, made.limits[i].value);
}

TEST(SheetChange, AnUnsaidDefinitionHoldsOnlyIfItHoldsUnderAll) {
  Job job = example();
  std::erase_if(job.limits, [](const auto& each) { return each.value.role == LimitRole::service; });
  const auto states = [&](const std::string& wear) { return judge_job(with(job, version(kRow + "wear = \"84.500 mm\"\n" + kTaper + "wear = \"" + wear + "\"\n")), options()).value().judgement; };
  for (const PartState& each : states("0.900 mm").states) EXPECT_NE(each.word, StateWord::too_close) << each.part;
  bool differed = false;
  for (const char* wear : {"0.030 mm", "0.040 mm", "0.050 mm", "0.060 mm", "0.070 mm", "0.080 mm", "0.090 mm", "0.110 mm"}) {
    for (const PartState& each : states(wear).states) {
      const bool unsaid = std::any_of(each.reasons.begin(), each.reasons.end(), [](const Message& reason) { return reason.key == "reason.unsaid"; });
      EXPECT_TRUE(!unsaid || each.word == StateWord::too_close || each.word == StateWord::not_judged) << each.part;
      differed = differed || unsaid;
    }
  }
  EXPECT_TRUE(differed) << "the two definitions differ somewhere between";
}

TEST(SheetChange, ARowThatGivesNoLimitIsTold) {
  JudgeOptions all = options();
  all.detail = JudgeDetail::everything;
  const SheetEntered vague = version("[[row]]\nid = \"vague\"\nwhat = \"Bore\"\nkind = \"cylinder-bore\"\npage = \"12\"\nwear = \"84.1 mm\"\n");
  const auto told = [](const JudgedJob& judged) { return std::count_if(judged.notices.begin(), judged.notices.end(), [](const Message& each) { return each.key == "sheet_limits.unused"; }); };
  EXPECT_EQ(told(judge_job(with(example(), vague), all).value()), 1);
  EXPECT_EQ(told(judge_job(example(), all).value()), 0);
}

TEST(SheetChange, AVerdictOnAnOpenQuestionIsMarked) {
  const JudgedJob judged = judge_job(with(example(), version(kRow + "wear = \"84.060 mm (3.3495 in)\"\n")), options()).value();
  std::size_t marked = 0;
  for (const Verdict& each : judged.judgement.verdicts) {
    const bool open = std::any_of(each.remarks.begin(), each.remarks.end(), [](const Message& remark) { return remark.key == "remark.open_question"; });
    EXPECT_EQ(open, each.limit == "book.bore-wear") << each.limit;
    marked += open ? 1U : 0U;
  }
  EXPECT_GT(marked, 0U);
  for (const PartState& each : judged.judgement.states) {
    const bool said = std::any_of(each.reasons.begin(), each.reasons.end(), [](const Message& reason) { return reason.key == "reason.open_question"; });
    EXPECT_EQ(said, each.part.starts_with("bore")) << each.part;
  }
}

}  // namespace
}  // namespace fettle
