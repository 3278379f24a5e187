#include "wire/sheet_draft_reader.h"

#include <gtest/gtest.h>

namespace fettle {
namespace {

std::string body(const std::string& more) { return R"({"book":"Invented","edition":"","page":"12",)" + more + "}"; }
std::vector<std::string> codes(const std::string& text) {
  std::vector<std::string> out;
  const auto draft = read_draft_body(text);
  if (draft.ok()) return {"read"};
  for (const Problem& each : draft.problems()) out.push_back(each.code);
  return out;
}

TEST(SheetDraftReader, ReadsEveryMember) {
  const auto draft = read_draft_body(body(
      R"("original":"in","unit":"both","rows":[{"id":"r1","cells":{"wear":" 84.1","what":"Bore"}}],"decisions":[{"rule":"series","row":"r1","field":"wear","printed":"84.1 mm","decided":"put-right","to":"84.2 mm","who":"JB","when":"2026-01-05"}])"));
  ASSERT_TRUE(draft.ok());
  EXPECT_EQ(draft.value().original, UnitFamily::inch);
  EXPECT_EQ(draft.value().unit, PageUnit::both);
  ASSERT_EQ(draft.value().rows.size(), 1U);
  EXPECT_EQ(draft.value().rows[0].cells, (std::vector<std::pair<SheetColumn, std::string>>{{SheetColumn::what, "Bore"}, {SheetColumn::wear, " 84.1"}}));
  ASSERT_EQ(draft.value().decisions.size(), 1U);
  EXPECT_EQ(draft.value().decisions[0], (SheetDecision{"series", "r1", "wear", "84.1 mm", Decided::put_right, "84.2 mm", "JB", "2026-01-05"}));
}

TEST(SheetDraftReader, WhatIsNotSaidIsNotKnown) {
  const auto draft = read_draft_body(body(R"("rows":[],"decisions":[])"));
  ASSERT_TRUE(draft.ok());
  EXPECT_FALSE(draft.value().unit);
  EXPECT_FALSE(draft.value().original);
}

TEST(SheetDraftReader, EverythingWrongIsToldAtOnce) {
  EXPECT_EQ(codes("7").front(), "wire.wrong_kind");
  EXPECT_EQ(codes("{").front(), "wire.not_json");
  EXPECT_EQ(codes(body(R"("unit":"cm","rows":[{"id":"r1","cells":{"colour":"red","what":7}},{"id":"r2"}],"decisions":[{}],"more":1)")),
            (std::vector<std::string>{"wire.unknown_word", "wire.wrong_kind", "wire.unknown_key", "wire.missing_key", "wire.missing_key", "wire.missing_key", "wire.missing_key", "wire.missing_key",
                                      "wire.missing_key", "wire.missing_key", "wire.missing_key", "wire.unknown_key"}));
}

}  // namespace
}  // namespace fettle
