#include <gtest/gtest.h>

#include "app/acts_on_bench.h"
#include "app/draft_problems.h"
#include "catalogue/catalogue.h"
#include "text/sentence.h"

namespace fettle {
namespace {

using enum SheetColumn;

SheetDraft book_page(const std::string& wear_text) {
  SheetDraft out{"Linnet notes (invented)", "first", "14", {}, PageUnit::millimetre, {}, {}};
  out.rows = {{"r1", {{id, "bore"}, {what, "Cylinder bore"}, {kind, "cylinder-bore"}, {characteristic, "size"}, {wear, wear_text}}}, {"r2", {}}};
  return out;
}
std::vector<std::string> codes(const ActDone& done) {
  std::vector<std::string> out;
  for (const Problem& each : done.problems) out.push_back(each.code);
  return out;
}
std::string bound(const Job& job, const std::string& limit) {
  for (const auto& each : job.limits) {
    if (each.value.id == limit) return each.value.bound.text;
  }
  return "";
}

TEST(SheetAct, APageIsKeptAndANextVersionTakesItsPlaceWithAReason) {
  ActsOnBench on;
  const Act first = on.act(SheetAct{"notes-14", book_page("78.100"), {}});
  ASSERT_TRUE(on.send({first}).acts.front().kept);
  EXPECT_EQ(bound(on.now(), "notes-14.bore-wear"), "78.100 mm");
  const ActDone again = on.send({first}).acts.front();
  EXPECT_TRUE(again.kept && !again.fresh) << "sent twice, it counts once";
  EXPECT_EQ(codes(on.send({on.act(SheetAct{"notes-14", book_page("78.080"), {}})}).acts.front()), (std::vector<std::string>{"record.no_reason"}));
  ASSERT_TRUE(on.send({on.act(SheetAct{"notes-14", book_page("78.080"), "misread"})}).acts.front().kept);
  EXPECT_EQ(bound(on.now(), "notes-14.bore-wear"), "78.080 mm");
  EXPECT_EQ(on.now().earlier_sheets.size(), 1U);
  Act other = first;
  other.body = SheetAct{"notes-14", book_page("78.200"), {}};
  EXPECT_EQ(codes(on.send({other}).acts.front()), (std::vector<std::string>{"store.other_bytes"}));
}

TEST(SheetAct, WhatCannotBeReadIsRefusedCellByCell) {
  ActsOnBench on;
  SheetDraft wrong = book_page("78.1x");
  wrong.rows[1].cells = {{what, "Only a name"}};
  wrong.page = "";
  const ActDone done = on.send({on.act(SheetAct{"notes-14", wrong, {}})}).acts.front();
  EXPECT_FALSE(done.kept);
  ASSERT_EQ(codes(done), (std::vector<std::string>{"limits.page_missing", "acts.sheet_cell", "acts.sheet_row"}));
  EXPECT_EQ(sentence(Message{"problem." + done.problems[1].code, done.problems[1].arguments}, Language::english).substr(0, 19), "Row 1, Wear limit: ");
  EXPECT_EQ(sentence(Message{"problem." + done.problems[2].code, done.problems[2].arguments}, Language::german), "Zeile 2: „Only a name“ hat keine Zahl.");
  EXPECT_TRUE(on.now().sheets.empty());
}

TEST(SheetAct, EveryFieldHasItsWord) {
  for (std::size_t i = 0; i < kSheetColumns; ++i) {
    const auto column = static_cast<SheetColumn>(i);
    SheetDraftRead read;
    read.rows.push_back({"r1", "a", false, {{column, {}, {{"limits.no_rows", {}, {}}}}}, {}, {}});
    const Problems problems = draft_problems(read);
    for (const Language language : {Language::english, Language::german}) EXPECT_EQ(sentence(Message{"problem.acts.sheet_cell", problems[0].arguments}, language).find('['), std::string::npos) << column_name(column);
  }
}

}  // namespace
}  // namespace fettle
