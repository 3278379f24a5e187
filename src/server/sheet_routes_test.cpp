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

TEST(SheetRoutes, WhatIsNoPageIsRefused) {
  PageOnBench on;
  EXPECT_EQ(on.ask("POST", "/api/sheet-proof", {}, Language::english, "{}").status, 400);
  EXPECT_EQ(on.ask("GET", "/api/kinds/nonesuch/definitions").status, 404);
}

}  // namespace
}  // namespace fettle
