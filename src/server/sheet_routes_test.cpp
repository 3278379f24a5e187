#include <gtest/gtest.h>

#include "server/page_on_bench.h"
#include "wire/json_at.h"

namespace fettle {
namespace {

const std::string kPage =
    R"({"book":"Invented four, workshop book","edition":"2","page":"31","unit":"mm","rows":[)"
    R"({"id":"a","cells":{"id":"hole","what":"Main housing","new":"48.016"}},)"
    R"({"id":"b","cells":{"id":"shell","what":"Main shell","new":"1.486"}},)"
    R"({"id":"c","cells":{"id":"journal","what":"Main journal","kind":"main-journal","characteristic":"size","new":"44.984","wear":"44.95x"}},)"
    R"({"id":"d","cells":{"what":"Main clearance","new":"0.080","from":"hole - 2 x shell - journal"}},)"
    R"({"id":"e","cells":{"what":"Cylinder bore","kind":"cylinder-bore","characteristic":"size","new":"84.000-84.020","wear":"84.000"}},)"
    R"({"id":"f","cells":{}}],"decisions":[)";
const std::string kMended = R"({"rule":"wear-at-new","row":"e","field":"wear","printed":"84.000 mm","decided":"ask","who":"JB","when":"2026-01-05"})";

std::string fixed(std::string page) { return replaced(std::move(page), "44.95x", "44.950"); }

TEST(SheetRoutes, SaysOfEachCellWhatIsUnderstoodAndWhatIsWrong) {
  PageOnBench on;
  const std::string reply = on.ask("POST", "/api/sheet-proof", {}, Language::english, kPage + "]}").body;
  EXPECT_EQ(json_at(reply, "/rows/0/cells/0/understood"), "48.016 mm");
  EXPECT_EQ(json_size(reply, "/rows"), 6U);
  EXPECT_EQ(json_at(reply, "/rows/3/waits"), "Not reckoned yet: journal cannot be read.");
  EXPECT_EQ(json_at(reply, "/rows/5/name"), "");
}

TEST(SheetRoutes, TheProofComesWithKeysToDecide) {
  PageOnBench on;
  const std::string reply = on.ask("POST", "/api/sheet-proof", {}, Language::german, fixed(kPage) + "]}").body;
  EXPECT_EQ(json_at(reply, "/findings/0/spots/0/row"), "d");
  EXPECT_EQ(json_at(reply, "/findings/0/likeliest/0/to"), "0.060 mm") << "what is sent back keeps its point";
  EXPECT_EQ(json_at(reply, "/findings/0/likeliest/0/said"), "0,060 mm");
  EXPECT_NE(json_at(reply, "/findings/0/arithmetic").find("0,060"), std::string::npos);
}

TEST(SheetRoutes, AnswersAreRecorded) {
  PageOnBench on;
  for (const auto& [end, language] : {std::pair("en", Language::english), std::pair("de", Language::german)}) {
    const auto hold = [&, end = end](const std::string& name, const std::string& now) { EXPECT_EQ(recorded_reply(name + "." + end, now), now) << name; };
    hold("sheet-typing", on.ask("POST", "/api/sheet-proof", {}, language, kPage + kMended + "]}").body);
    hold("sheet-proof", on.ask("POST", "/api/sheet-proof", {}, language, fixed(kPage) + kMended + "]}").body);
    hold("definitions-bore", on.get("/api/kinds/cylinder-bore/definitions", {}, language));
    hold("definitions-clearance", on.get("/api/kinds/bore-and-piston/definitions", {}, language));
  }
}

const std::string kExampleJob = "/api/jobs/tern-curlew-3";
std::string bore_page(const std::string& wear) {
  return R"({"book":"Invented notes","edition":"","page":"14","unit":"mm","rows":[{"id":"r1","cells":{"id":"bore","what":"Cylinder bore","kind":"cylinder-bore","characteristic":"size","wear":")" + wear +
         R"("}},{"id":"r2","cells":{"id":"shell","what":"Shell","new":"1.486"}}],"decisions":[{"rule":"series","row":"r1","field":"wear","printed":"1 mm","decided":"put-right","to":"2 mm","who":"JB","when":"2031-05-04"}]})";
}
std::string act_of(const std::string& wear, const std::string& id, const std::string& why) {
  return R"({"acts":[{"id":")" + std::string(31, 'c') + id + R"(","device":"d-1","sequence":)" + id + R"(,"made_at":"2031-05-04T10:12:05+02:00","who":"JB","act":"sheet","sheet":"notes-14","draft":)" +
         bore_page(wear) + (why.empty() ? "" : R"(,"why":")" + why + "\"") + "}]}";
}

TEST(SheetRoutes, APageIsTriedKeptAndTypedOn) {
  PageOnBench on;
  ASSERT_TRUE(on.take(read_folder(kExample).value()).ok());
  const auto effect = [&](const std::string& wear, Language language = Language::english) {
    return on.ask("POST", kExampleJob + "/sheet-effect", {}, language, R"({"sheet":"notes-14","draft":)" + bore_page(wear) + "}").body;
  };
  // Bore 2 is 84.14 mm at its worst place, see docs/ARCHITECTURE.md.
  const std::string tried = effect("84.200");
  EXPECT_EQ(json_size(tried, "/problems"), 0U);
  EXPECT_EQ(json_size(tried, "/verdicts"), 3U) << "of each bore one that was not there before";
  EXPECT_EQ(json_at(tried, "/verdicts/0/before"), "null");
  EXPECT_EQ(json_size(on.get(kExampleJob + "/sheets"), "/sheets"), 0U) << "trying keeps nothing";
  ASSERT_EQ(json_at(on.ask("POST", kExampleJob + "/acts", {}, Language::english, act_of("84.200", "1", "")).body, "/acts/0/kept"), "true");
  EXPECT_EQ(json_size(effect("84.200"), "/verdicts"), 0U);
  const std::string lower = effect("84.100");
  EXPECT_EQ(json_at(lower, "/verdicts/0/other_word"), "true");
  EXPECT_EQ(json_at(lower, "/verdicts/0/before/state"), "within");
  EXPECT_EQ(json_at(lower, "/verdicts/0/now/state"), "beyond");
  EXPECT_NE(json_at(lower, "/verdicts/0/name").find("Bore 2"), std::string::npos);
  EXPECT_EQ(json_at(effect("84.1x"), "/problems/0/code"), "acts.sheet_cell");
  for (const auto& [end, language] : {std::pair("en", Language::english), std::pair("de", Language::german)}) {
    const auto hold = [&, end = end](const std::string& name, const std::string& now) { EXPECT_EQ(recorded_reply(name + "." + end, now), now) << name; };
    hold("sheets", on.get(kExampleJob + "/sheets", {}, language));
    hold("sheet-effect", effect("84.100", language));
    hold("sheet-effect-wrong", effect("84.1x", language));
  }
  ASSERT_EQ(json_at(on.ask("POST", kExampleJob + "/acts", {}, Language::english, act_of("84.100", "2", "misread")).body, "/acts/0/kept"), "true");
  EXPECT_EQ(json_at(on.get(kExampleJob + "/sheets"), "/sheets/0/versions"), "2");
  EXPECT_EQ(json_at(on.get(kExampleJob + "/sheets"), "/sheets/0/draft/rows/0/cells/wear"), "84.100 mm");
}

TEST(SheetRoutes, WhatIsNoPageIsRefused) {
  PageOnBench on;
  EXPECT_EQ(on.ask("POST", "/api/sheet-proof", {}, Language::english, "{}").status, 400);
  EXPECT_EQ(on.ask("GET", "/api/kinds/nonesuch/definitions").status, 404);
  EXPECT_EQ(on.ask("POST", kExampleJob + "/sheet-effect", {}, Language::english, "[]").status, 400);
  EXPECT_EQ(on.ask("GET", "/api/jobs/nobody/sheets").status, 404);
}

}  // namespace
}  // namespace fettle
