#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "app/linnet_on_bench.h"
#include "server/page_on_bench.h"
#include "server/page_words.h"
#include "server/verdict_page.h"
#include "wire/json_at.h"
#include "wire/page_schemas.h"

namespace fettle {
namespace {

const std::string kDemo = "/api/jobs/tern-curlew-3";

struct Asked : PageOnBench {
  std::string refused_with(const std::string& path, std::map<std::string, std::string> query = {}) {
    const HttpResponse answer = ask("GET", path, std::move(query));
    return std::to_string(answer.status) + " " + json_at(answer.body, "/problems/0/code");
  }
  HttpResponse prove(const std::string& shows, const std::string& side) {
    const std::string body = R"({"gauge":"bore-gauge","for":"bore-1","shows":")" + shows + R"(","side":")" + side + R"("})";
    return ask("POST", kDemo + "/proof", {}, Language::english, body);
  }
};

struct Demo : Asked {
  Demo() { EXPECT_TRUE(take(read_folder(kExample).value()).ok()); }
};

TEST(PageRoutes, AJobIsFoundByWhateverItIsCalled) {
  Asked bench;
  FolderTexts folder = linnet({linnet_bore(1)});
  folder.job_toml = replaced(folder.job_toml, "id = \"linnet-4\"", "id = \"linnet/4 ü\"");
  ASSERT_TRUE(bench.take(folder).ok());
  const std::string path = "/api/jobs/linnet%2F4%20%C3%BC";
  EXPECT_EQ(json_at(bench.get(path), "/job"), "linnet/4 ü");
  EXPECT_EQ(json_at(bench.get(path + "/rounds/bore-1"), "/part/id"), "bore-1");
  EXPECT_EQ(bench.refused_with(path + "x"), "404 record.no_such_job");
}

/// The row as a document of its own.
std::string row_of(const std::string& page, const std::string& part, const std::string& limit) {
  for (std::size_t i = 0; i < json_size(page, "/rows"); ++i) {
    std::string row = json_at(page, "/rows/" + std::to_string(i));
    if (json_at(row, "/part") == part && json_at(row, "/limit") == limit) return row;
  }
  return "null";
}

// The figures of the example, settled by hand: 84.0548, 84.1418, 84.0978 mm; bore 1 within, bore 2 beyond, bore 3 too close.
TEST(VerdictPage, SaysTheExamplesVerdicts) {
  Demo bench;
  const std::string page = bench.get(kDemo + "/verdicts");
  EXPECT_EQ(json_at(page, "/sentence"), "Bore 1 may go back; bore 2 is beyond; piston 1 is beyond; bore 3 is too close to call.");
  const auto figures = [&](const char* part) { return json_at(row_of(page, part, "bore-service"), "/figures"); };
  EXPECT_TRUE(figures("bore-1").starts_with("as measured 84.0548 mm · best estimate "));
  EXPECT_TRUE(figures("bore-2").starts_with("as measured 84.1418 mm"));
  EXPECT_TRUE(figures("bore-3").starts_with("as measured 84.0978 mm"));
  EXPECT_TRUE(figures("bore-3").ends_with(" · limit ≤ 84.1000 mm (p. 12)"));
  EXPECT_EQ(json_at(row_of(page, "bore-1", "bore-service"), "/state"), "within");
  EXPECT_EQ(json_at(row_of(page, "bore-2", "bore-service"), "/state"), "beyond");
  EXPECT_EQ(json_at(row_of(page, "bore-2", "bore-taper"), "/state"), "beyond");
  EXPECT_EQ(json_at(row_of(page, "bore-3", "bore-service"), "/state"), "too-close");
  EXPECT_EQ(json_at(page, "/rows/0/part"), "bore-2") << "the worst first";
  EXPECT_EQ(json_at(page, "/by_eye/0/words"), "Piston 1: broken ring land (second land, exhaust side). Beyond, whatever the gauge says.");
  const std::string row = row_of(page, "bore-1", "bore-service");
  EXPECT_EQ(json_size(row, "/readings"), 9U) << "the one that was carbon is shown as well";
  EXPECT_EQ(json_at(row, "/readings/0/said"), "null");
  EXPECT_EQ(json_at(row, "/readings/0/note"), "left out (deposit): carbon; cleaned and read again");
  EXPECT_EQ(json_at(row, "/settle"), "null") << "bore 1 is within";
  const std::string open = row_of(page, "bore-3", "bore-service");
  ASSERT_GT(json_size(open, "/settle/lines"), 2U);
  EXPECT_EQ(json_at(open, "/settle/lines/0").find("Set the gauge afresh, then read: bore 3 top thrust"), 0U) << json_at(open, "/settle/lines/0");
  int last = 101;
  for (std::size_t i = 0; i < json_size(row, "/doubt"); ++i) {
    const int bar = std::stoi(json_at(row, "/doubt/" + std::to_string(i) + "/bar"));
    EXPECT_LE(bar, last) << "longest first";
    last = bar;
  }
  EXPECT_LT(last, 101) << "there is some doubt";
  const std::string taper = row_of(page, "bore-2", "bore-taper");
  ASSERT_GT(json_size(taper, "/definitions"), 0U);
  EXPECT_EQ(json_at(taper, "/definitions/rows/0/own"), "true") << "the limit's own first";
}

TEST(VerdictPage, ChancesAreCutTowardsOneHalf) {
  EXPECT_EQ(chance_sentence({0.948, 0.001, 1024}, Language::english), "94 in 100 that it keeps the limit");
  EXPECT_EQ(chance_sentence({0.021, 0.001, 1024}, Language::english), "97 in 100 that it is past the limit");
  EXPECT_EQ(chance_sentence({0.995, 0.001, 1024}, Language::english), "more than 99 in 100 that it keeps the limit");
  EXPECT_EQ(chance_sentence({0.004, 0.001, 1024}, Language::german), "mehr als 99 von 100, dass es jenseits der Grenze liegt");
}

TEST(VerdictPage, SpeaksGerman) {
  Demo bench;
  const std::string page = bench.get(kDemo + "/verdicts", {}, Language::german);
  EXPECT_EQ(json_at(page, "/sentence"), "Bohrung 1 darf wieder hinein; Bohrung 2 ist außerhalb; Kolben 1 ist außerhalb; Bohrung 3 ist zu knapp.");
  EXPECT_TRUE(json_at(row_of(page, "bore-1", "bore-service"), "/figures").starts_with("gemessen 84,0548 mm · bester Schätzwert "));
}

TEST(SettingPage, SaysWhatTheDesignSays) {
  Asked bench;
  ASSERT_TRUE(bench.take(linnet(LinnetTold{})).ok());
  const std::string page = bench.get("/api/jobs/linnet-4/setting-up", {{"gauge", "bg"}, {"for", "cylinder-bore"}});
  EXPECT_EQ(json_at(page, "/wanted"), "78.000 mm");
  EXPECT_EQ(json_at(page, "/set_to/digits"), "3.0710");
  EXPECT_EQ(json_at(page, "/set_to/unit"), "in");
  EXPECT_EQ(json_at(page, "/set_to/tolerance"), "0.0009 mm more, 4 % of the new tolerance of 0.020 mm");
  EXPECT_EQ(json_at(page, "/set_to/sentence"),
            "Nominal 78.000 mm is 3.07087 in. mic shows 0.0001 in too much on its standard; that is allowed for. Set 3.0710 in and lock it: 0.0009 mm more, 4 % of the new tolerance "
            "of 0.020 mm. Used as set.");
  EXPECT_EQ(json_at(page, "/rods"), "null");
  EXPECT_EQ(json_at(page, "/problems/0/code"), "app.set_no_kit");
  EXPECT_EQ(json_at(page, "/setting"), "bg-2");
  EXPECT_EQ(json_at(page, "/same_as_last/set"), "3.0709 in");
  EXPECT_EQ(json_at(page, "/same_as_last/lines/2"), "Zeros 0, 1 ↺, 0");
  // 78.100 less 78.00086 mm is 99.1 divisions.
  EXPECT_TRUE(json_at(page, "/pointers/lines/2").starts_with("99.1 ↺: service limit 78.100 mm; with guard band "));
}

TEST(SettingPage, AsksForTheSenseThatNobodyKnows) {
  Asked bench;
  LinnetTold told;
  told.pressed_in = "";
  ASSERT_TRUE(bench.take(linnet(told)).ok());
  const std::string page = bench.get("/api/jobs/linnet-4/setting-up", {{"gauge", "bg"}, {"for", "bore-2"}}, Language::german);
  EXPECT_EQ(json_at(page, "/sense/known"), "null");
  EXPECT_EQ(json_at(page, "/sense/sentence"), "Den federnden Taster mit dem Daumen eindrücken. Wohin lief der Zeiger?");
  EXPECT_EQ(json_at(page, "/proof"), "null");
  EXPECT_EQ(json_at(page, "/pointers"), "null");
  EXPECT_EQ(json_at(page, "/same_as_last"), "null");
}

TEST(SettingPage, TheProofIsAnswered) {
  Demo bench;
  const auto said = [&](const std::string& shows, const std::string& side) { return bench.prove(shows, side).body; };
  EXPECT_EQ(json_at(said("76", "anticlockwise"), "/outcome"), "right");
  EXPECT_EQ(json_at(said("76", "clockwise"), "/outcome"), "reversed");
  EXPECT_EQ(json_at(said("152", "anticlockwise"), "/sentence"), "The needle went twice as far as it should: one division is worth half of 0.001 mm.");
  EXPECT_EQ(json_at(said("38", "anticlockwise"), "/outcome"), "twice");
  EXPECT_EQ(bench.ask("POST", kDemo + "/proof", {}, Language::english, "{").status, 400);
  EXPECT_EQ(bench.ask("POST", kDemo + "/proof", {}, Language::english, "{\"gauge\":\"bore-gauge\"}").status, 400);
  EXPECT_EQ(bench.prove("furlong", "clockwise").status, 422);
}

TEST(RoundPage, ShowsWhatTheHandNeeds) {
  Asked bench;
  ASSERT_TRUE(bench.take(half_read()).ok());
  const std::string page = bench.get(kDemo + "/rounds/bore-3");
  EXPECT_EQ(json_at(page, "/gauge/strip"), "1 div 0.001 mm · ↻ = smaller");
  EXPECT_EQ(json_at(page, "/part/of"), "bore 3 of 3");
  const std::string top = json_at(page, "/places/0");
  EXPECT_EQ(json_at(top, "/name"), "TOP · thrust");
  EXPECT_EQ(json_at(top, "/where"), "12 mm below the face");
  EXPECT_EQ(json_at(top, "/readings/0/said"), "84.0978");
  EXPECT_EQ(json_at(page, "/places/" + json_at(page, "/next") + "/name"), "BOTTOM · thrust");
  EXPECT_EQ(json_at(page, "/second"), "(nothing)");
  EXPECT_EQ(json_at(bench.get(kDemo + "/rounds/bore-3", {}, Language::german), "/places/3/name"), "FUSS · Druckrichtung");
}

TEST(RoundPage, SaysWhoHoldsIt) {
  Demo bench;
  EXPECT_EQ(json_at(bench.get(kDemo + "/rounds/bore-1"), "/held_by"), "null");
  EXPECT_EQ(bench.presence.come("tern-curlew-3", {"d-2", "MK", "bore-2", "look"}, 0), std::nullopt);
  EXPECT_EQ(bench.presence.come("tern-curlew-3", {"d-1", "JB", "bore-1", "round"}, 0), std::nullopt);
  EXPECT_EQ(json_at(bench.get(kDemo + "/rounds/bore-1"), "/held_by"), R"({"who":"JB","device":"d-1"})");
  EXPECT_EQ(json_at(bench.get(kDemo + "/rounds/bore-2"), "/held_by"), "null") << "looking holds nothing";
}

TEST(PageRoutes, WhatIsNotThereIsRefused) {
  Demo bench;
  EXPECT_EQ(bench.refused_with("/api/jobs/no-such"), "404 record.no_such_job");
  EXPECT_EQ(bench.refused_with(kDemo + "/rounds/bore-9"), "404 app.round_unknown_part");
  EXPECT_EQ(bench.refused_with(kDemo + "/rounds/bore-1", {{"setting", "x"}}), "404 app.round_unknown_setting");
  EXPECT_EQ(bench.refused_with(kDemo + "/rounds/bore-1", {{"second", "1"}}), "422 app.round_nobody");
  EXPECT_EQ(bench.refused_with(kDemo + "/gauges", {{"for", "x"}}), "404 app.set_for_unknown");
  EXPECT_EQ(bench.refused_with(kDemo + "/setting-up", {{"gauge", "x"}, {"for", "bore-1"}}), "404 app.set_unknown_gauge");
  EXPECT_EQ(bench.refused_with("/api/schemas/x.schema.json"), "404 server.no_such_schema");
}

TEST(PageRoutes, TheDocumentIsGivenWithItsSchemas) {
  Asked bench;
  const std::string document = bench.get("/api/openapi.json");
  EXPECT_EQ(json_at(document, "/openapi"), "3.1.0");
  EXPECT_EQ(json_at(bench.get("/api/schemas/bench.schema.json"), "/title"), "Bench");
}

using Named = std::pair<std::string, std::string>;

/// Answered by the server's own routes, which know devices, people and ports, or by what streams and takes files.
const std::set<Named> kElsewhere = {
    {"GET", "/api/hello"}, {"GET", "/api/live"}, {"GET", "/api/ports"}, {"POST", "/api/ports/take"}, {"POST", "/api/ports/leave"}, {"POST", "/api/gauge-lines/done"},
    {"POST", "/api/pairing"}, {"POST", "/api/pair"}, {"GET", "/api/devices"}, {"POST", "/api/devices/revoke"}, {"POST", "/api/jobs/{job}/present"}};

TEST(OpenApi, EveryRouteStandsInItAndTheOtherWayRound) {
  Asked bench;
  std::set<Named> written;
  for (const ApiOperation& each : openapi_operations()) written.insert({each.method, each.path});
  std::set<Named> routed;
  for (const HttpRoute& each : bench.routes) {
    EXPECT_TRUE(routed.insert({each.method, each.pattern}).second) << each.method << " " << each.pattern << " twice";
    EXPECT_TRUE(written.contains({each.method, each.pattern})) << each.method << " " << each.pattern << " is not in openapi.json";
  }
  for (const Named& each : kElsewhere) {
    EXPECT_FALSE(routed.contains(each)) << each.second << " is a route of the record now";
    EXPECT_TRUE(written.contains(each)) << each.second;
  }
  for (const Named& each : written) EXPECT_TRUE(routed.contains(each) || kElsewhere.contains(each)) << "no route for " << each.first << " " << each.second;
}

TEST(OpenApi, WhatChangesSomethingCarriesTheToken) {
  Asked bench;
  for (const ApiOperation& operation : openapi_operations()) {
    for (const HttpRoute& each : bench.routes) {
      if (each.method != operation.method || each.pattern != operation.path) continue;
      EXPECT_EQ(each.changes, operation.token) << each.pattern;
    }
  }
}

TEST(PageWords, CapitalsKnowUmlauts) {
  EXPECT_EQ(capital("öl"), "Öl");
  EXPECT_EQ(capital(""), "");
  EXPECT_EQ(shouted("Fuß über"), "FUSS ÜBER");
}

}  // namespace
}  // namespace fettle
