#include "server/act_routes.h"

#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <sstream>

#include "app/acts_on_bench.h"

namespace fettle {
namespace {

/// Notes what it was told.
class NotedLive final : public Live {
 public:
  void tell(const std::string& job, const std::optional<std::string>& device, const std::string& event, const std::string& json_line) override {
    told.push_back(job + " " + device.value_or("*") + " " + event + " " + json_line);
  }
  std::vector<std::string> told;
};

struct RoutesOnBench {
  ActsOnBench bench;
  NotedLive live;
  Served served{bench.store, bench.jobs, bench.clock, live, "shop.fettle"};
  std::vector<HttpRoute> routes = act_routes(served);

  HttpResponse ask(const std::string& method, const std::string& pattern, const std::string& body, Language language = Language::english,
                   std::map<std::string, std::string> words = {}, std::map<std::string, std::string> query = {}) {
    words.emplace("job", bench.job);
    for (const HttpRoute& each : routes) {
      if (each.method == method && each.pattern == pattern) return each.handler({method, pattern, words, query, body, language, true, std::nullopt});
    }
    ADD_FAILURE() << "no route " << method << " " << pattern;
    return {0, "", {}, ""};
  }
  HttpResponse acts(const std::string& acts, Language language = Language::english) {
    return ask("POST", "/api/jobs/{job}/acts", R"({"acts":[)" + acts + "]}", language);
  }
  std::string act(const std::string& body) {
    const ActHead head = bench.head();
    return R"({"id":")" + head.id + R"(","device":"d-1","sequence":)" + std::to_string(head.sequence) +
           R"(,"made_at":"2031-05-04T10:12:05+02:00","who":"JB",)" + body + "}";
  }
};

std::string reading(const std::string& station, const std::string& direction, const std::string& text, int order) {
  return R"("part":"bore-2","station":")" + station + R"(","direction":")" + direction + R"(","text":")" + text +
         R"(","unit":"div","setting":"bg-1","round":"1","order":)" + std::to_string(order);
}

/// What the reply was when it was recorded, with RECORD=1 now. The page's tests read the same files, and check_schemas.py holds them
/// against the schemas.
void expect_recorded(const std::string& name, const HttpResponse& response) {
  EXPECT_EQ(response.type, "application/json");
  const std::string path = std::string(FETTLE_SOURCE_DIR) + "/tests/http/replies/" + name + ".json";
  if (const char* record = std::getenv("RECORD"); record != nullptr && std::string(record) == "1") std::ofstream(path, std::ios::binary) << response.body;
  std::ifstream file(path, std::ios::binary);
  std::ostringstream recorded;
  recorded << file.rdbuf();
  EXPECT_EQ(response.body, recorded.str()) << name;
}

/// The first person's slip is not told to the second, and keeps no question from them.
TEST(ActRoutes, ASecondReaderIsToldNothingOfTheFirst) {
  RoutesOnBench on;
  on.bench.ready();
  ASSERT_EQ(on.acts(on.act(R"("act":"reading",)" + reading("mid", "pin", "28 ↻", 1))).status, 200);
  const auto understood = [&](const std::string& text, std::map<std::string, std::string> query) {
    return on.ask("POST", "/api/jobs/{job}/understood", "{" + reading("mid", "pin", text, 2) + "}", Language::english, {}, std::move(query)).body;
  };
  const auto has = [](const std::string& text, const char* part) { return text.find(part) != std::string::npos; };
  EXPECT_TRUE(has(understood("28 ↺", {}), "set 28 ↻ aside")) << "the first person may be offered it";
  EXPECT_TRUE(has(understood("28 ↺", {{"second", "1"}, {"who", "JB"}}), "set 28 ↻ aside")) << "it is JB's own";
  const std::map<std::string, std::string> second = {{"second", "1"}, {"who", "AK"}};
  EXPECT_TRUE(has(understood("28 ↺", second), R"("offer": null)")) << understood("28 ↺", second);
  EXPECT_TRUE(has(understood("27 ↻", {}), R"("question": null)")) << "asked of this place already";
  EXPECT_TRUE(has(understood("27 ↻", second), "needle-side")) << "but not of the second person";
  EXPECT_TRUE(has(understood("28 ↺", {{"second", "1"}}), "app.round_nobody"));
}

/// Script 1 (a), as the page plays it.
TEST(ActRoutes, AWrongNeedleSideIsAskedAndSetAside) {
  RoutesOnBench on;
  on.bench.ready();
  on.bench.read_bore("bore-2", {71, 31, 18, 12}, {60, 28, 16, 12}, "mid/pin");
  for (const Language language : {Language::english, Language::german}) {
    const std::string end = language == Language::english ? ".en" : ".de";
    expect_recorded("understood-asked" + end, on.ask("POST", "/api/jobs/{job}/understood", "{" + reading("mid", "pin", "28 ↻", 20) + "}", language));
  }
  const HttpResponse kept = on.acts(on.act(R"("act":"reading",)" + reading("mid", "pin", "28 ↻", 20)));
  EXPECT_EQ(kept.status, 200);
  expect_recorded("kept-asked.en", kept);
  ASSERT_EQ(on.live.told.size(), 1U);
  EXPECT_EQ(on.live.told.front(), "linnet-4 * accepted {\"job\":\"linnet-4\",\"position\":" + std::to_string(on.bench.recorded().accepted.size()) + ",\"device\":\"d-1\"}");
  for (const Language language : {Language::english, Language::german}) {
    const std::string end = language == Language::english ? ".en" : ".de";
    expect_recorded("understood-offer" + end, on.ask("POST", "/api/jobs/{job}/understood", "{" + reading("mid", "pin", "28 ↺", 21) + "}", language));
  }
}

TEST(ActRoutes, WhatIsKeptAndWhatIsRefusedStandInTheOrderSent) {
  RoutesOnBench on;
  on.bench.ready();
  const std::string once = on.act(R"("act":"reading",)" + reading("top", "thrust", "71 acw", 1));
  // One after the other: each takes the next id, and the operands of + come in an order of the compiler's own.
  const std::string sideless = on.act(R"("act":"reading",)" + reading("top", "thrust", "71", 2));
  const std::string elsewhere = on.act(R"("act":"finding","part":"bore-9","what":"score","weight":"note")");
  expect_recorded("kept.en", on.acts(once + "," + sideless + "," + elsewhere));
  EXPECT_EQ(on.live.told.size(), 1U);
  const HttpResponse again = on.acts(once, Language::german);
  expect_recorded("kept-again.de", again);
  EXPECT_EQ(on.live.told.size(), 1U) << "nothing is new";
  expect_recorded("understood-refused.en", on.ask("POST", "/api/jobs/{job}/understood", "{" + reading("top", "thrust", "7x", 3) + "}"));
  expect_recorded("understood.de", on.ask("POST", "/api/jobs/{job}/understood", "{" + reading("top", "thrust", "71 acw", 3) + "}", Language::german));
}

TEST(ActRoutes, ABodyThatIsNoneAndAJobThatIsNotThere) {
  RoutesOnBench on;
  EXPECT_EQ(on.acts("{}").status, 400);
  EXPECT_EQ(on.ask("POST", "/api/jobs/{job}/understood", "[").status, 400);
  EXPECT_EQ(on.ask("POST", "/api/jobs", "{}").status, 400);
  const std::string withdrawal = R"({"acts":[)" + on.act(R"("act":"withdraw","event":"e","why":"w")") + "]}";
  EXPECT_EQ(on.ask("POST", "/api/jobs/{job}/acts", withdrawal, Language::english, {{"job", "nobody"}}).status, 404);
  EXPECT_TRUE(on.live.told.empty());
}

TEST(ActRoutes, ANewEngineAndTheExample) {
  RoutesOnBench on;
  const std::string groups = R"("groups":[{"kind":"cylinder-bore","count":1}])";
  const std::string act = on.act(R"("name":"Dabchick 1","engine":"pump engine","shown_unit":"mm","decimal_mark":null,)" + groups);
  const HttpResponse made = on.ask("POST", "/api/jobs", act);
  expect_recorded("new-engine.en", made);
  EXPECT_EQ(on.ask("POST", "/api/jobs", act).body, made.body) << "the same act again";
  EXPECT_EQ(on.live.told.front(), "dabchick-1 * accepted {\"job\":\"dabchick-1\",\"position\":3,\"device\":\"d-1\"}");
  EXPECT_NE(on.ask("POST", "/api/example", "").body.find("\"tern-curlew-3\""), std::string::npos);
  EXPECT_EQ(on.ask("POST", "/api/jobs", on.act(R"("name":"","engine":"","shown_unit":"mm",)" + groups)).status, 422);
}

TEST(ActRoutes, APhotoIsKeptAndGivenBackByItsJobAlone) {
  RoutesOnBench on;
  // The smallest paper that is let in.
  const std::string paper = "%PDF-1.4\n1 0 obj\n<<>>\nendobj\ntrailer\n<<>>\n%%EOF\n";
  const HttpResponse kept = on.ask("POST", "/api/jobs/{job}/files", paper, Language::english, {}, {{"name", "bill.pdf"}, {"part", "bore-1"}, {"note", "the shop's"}});
  ASSERT_EQ(kept.status, 200) << kept.body;
  const Job& job = on.bench.now();
  ASSERT_EQ(job.files.size(), 1U);
  const std::string hash = job.files.front().value.hash;
  EXPECT_NE(kept.body.find(hash), std::string::npos);
  EXPECT_NE(kept.body.find(job.files.front().event), std::string::npos);
  const HttpResponse again = on.ask("POST", "/api/jobs/{job}/files", paper, Language::english, {}, {{"name", "bill.pdf"}, {"part", "bore-1"}, {"note", "the shop's"}});
  EXPECT_EQ(again.body, kept.body) << "sent again because the answer was lost";
  EXPECT_EQ(on.bench.now().files.size(), 1U);
  const HttpResponse file = on.ask("GET", "/api/jobs/{job}/files/{hash}", "", Language::english, {{"hash", hash}});
  EXPECT_EQ(file.status, 200);
  EXPECT_EQ(file.type, "application/pdf");
  EXPECT_EQ(on.ask("GET", "/api/jobs/{job}/files/{hash}/thumbnail", "", Language::english, {{"hash", hash}}).status, 404) << "acts.no_such_file: a paper has none";
  on.bench.job = new_engine(on.bench.store, on.bench.engine("Another")).value();
  EXPECT_EQ(on.ask("GET", "/api/jobs/{job}/files/{hash}", "", Language::english, {{"hash", hash}}).status, 404) << "it hangs on another job";
  EXPECT_EQ(on.ask("POST", "/api/jobs/{job}/files", "no picture", Language::english, {}, {{"name", "x"}}).status, 422);
  EXPECT_EQ(on.ask("POST", "/api/jobs/{job}/files", paper, Language::english, {}, {{"name", "x"}, {"who", "J\tB"}}).status, 400);
}

}  // namespace
}  // namespace fettle
