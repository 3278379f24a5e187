#include "server/gate.h"

#include <gtest/gtest.h>

#include "server/answers.h"
#include "server/static_files.h"
#include "store/store.h"

namespace fettle {
namespace {

const std::vector<PageFile> kPage = {{"/index.html", "text/html", "<p>page</p>", "", "aa11"},
                                     {"/assets/page-1a.js", "text/javascript", "let long_script = 1;", "packed", "bb22"}};

struct Shop {
  std::int64_t now = 0;
  HttpRequest asked{};
  int calls = 0;
  std::function<HttpResponse()> answer = [] { return answered("{}"); };
  Gate gate{{{{"localhost"}, "token"},
             kPage,
             [](std::string_view key) { return key == "good" ? std::optional<std::string>("p-1") : std::nullopt; },
             [this] { return now; },
             3,
             1000},
            routes()};

  std::vector<HttpRoute> routes() {
    const HttpHandler handler = [this](const HttpRequest& request) {
      ++calls;
      asked = request;
      return answer();
    };
    return {{"GET", "/api/hello", false, 0, handler},        {"POST", "/api/pair", true, 100, handler},
            {"GET", "/api/jobs/{job}", false, 0, handler},   {"POST", "/api/jobs/{job}/acts", true, 10, handler},
            {"POST", "/api/understood", false, 10, handler}};
  }

  HttpResponse ask(const std::string& method, const std::string& target, std::vector<std::pair<std::string, std::string>> fields = {}, bool here = true) {
    fields.emplace_back("Host", "localhost");
    auto decided = gate.admit({11, method, target, std::move(fields)}, {here ? "127.0.0.1" : "10.0.0.9", here, !here});
    if (auto* response = std::get_if<HttpResponse>(&decided)) return *response;
    return gate.answer(std::get<Admitted>(decided));
  }
};

std::string code_in(const HttpResponse& response) {
  const auto at = response.body.find("\"code\":\"");
  return std::to_string(response.status) + (at == std::string::npos ? "" : " " + response.body.substr(at + 8, response.body.find('"', at + 8) - at - 8));
}

std::string field_in(const HttpResponse& response, const std::string& name) {
  for (const auto& [field, value] : response.headers) {
    if (field == name) return value;
  }
  return {};
}

TEST(Gate, GivesTheHandlerWhatWasAskedFor) {
  Shop shop;
  EXPECT_EQ(shop.ask("GET", "/api/jobs/tern%20a?part=bore-1", {{"Accept-Language", "fr, de-AT;q=0.8, en"}}).status, 200);
  EXPECT_EQ(shop.asked.words.at("job"), "tern a");
  EXPECT_EQ(shop.asked.query.at("part"), "bore-1");
  EXPECT_EQ(shop.asked.language, Language::german);
  EXPECT_TRUE(shop.asked.loopback);
  EXPECT_EQ(shop.asked.device, std::nullopt);
}

TEST(Gate, RefusesWhatIsNotThereAndOtherMethods) {
  Shop shop;
  EXPECT_EQ(code_in(shop.ask("GET", "/api/none")), "404 server.no_such_path");
  const HttpResponse other = shop.ask("GET", "/api/jobs/tern/acts");
  EXPECT_EQ(code_in(other), "405 server.method");
  EXPECT_EQ(field_in(other, "Allow"), "POST");
  EXPECT_EQ(code_in(shop.ask("POST", "/index.html")), "405 server.method");
  EXPECT_EQ(code_in(shop.ask("POST", "/api/live")), "405 server.method");
  EXPECT_EQ(code_in(shop.ask("GET", "relative")), "400 server.target");
  EXPECT_EQ(shop.calls, 0);
}

TEST(Gate, AsksForTheTokenWhereSomethingChangesAndLooksAtTheLength) {
  Shop shop;
  EXPECT_EQ(code_in(shop.ask("POST", "/api/jobs/tern/acts")), "403 server.token");
  EXPECT_EQ(shop.ask("POST", "/api/understood").status, 200);
  EXPECT_EQ(shop.ask("POST", "/api/jobs/tern/acts", {{"Fettle-Token", "token"}, {"Content-Length", "10"}}).status, 200);
  EXPECT_EQ(code_in(shop.ask("POST", "/api/jobs/tern/acts", {{"Fettle-Token", "token"}, {"Content-Length", "11"}})), "413 server.body_too_large");
  EXPECT_EQ(code_in(shop.ask("POST", "/api/jobs/tern/acts", {{"Fettle-Token", "token"}, {"Content-Length", "99999999999999999999999"}})), "413 server.body_too_large");
}

TEST(Gate, LetsNobodyElseInWithoutAKey) {
  Shop shop;
  EXPECT_EQ(code_in(shop.ask("GET", "/api/jobs/tern", {}, false)), "401 server.not_paired");
  EXPECT_EQ(code_in(shop.ask("GET", "/api/none", {}, false)), "401 server.not_paired");
  EXPECT_EQ(code_in(shop.ask("GET", "/api/live", {}, false)), "401 server.not_paired");
  EXPECT_EQ(shop.ask("GET", "/api/hello", {}, false).status, 200);
  EXPECT_EQ(shop.ask("GET", "/index.html", {}, false).status, 200);
  const std::pair<std::string, std::string> key = {"Cookie", std::string(kKeyCookie) + "=good"};
  EXPECT_EQ(shop.ask("GET", "/api/jobs/tern", {key}, false).status, 200);
  EXPECT_EQ(shop.asked.device, "p-1");
}

TEST(Gate, AnAddressWithWrongKeysMustWait) {
  Shop shop;
  const std::pair<std::string, std::string> wrong = {"Cookie", std::string(kKeyCookie) + "=bad"};
  const std::pair<std::string, std::string> right = {"Cookie", std::string(kKeyCookie) + "=good"};
  for (int i = 0; i < 3; ++i) EXPECT_EQ(code_in(shop.ask("GET", "/api/jobs/tern", {wrong}, false)), "401 server.not_paired");
  EXPECT_EQ(code_in(shop.ask("GET", "/api/jobs/tern", {right}, false)), "429 server.too_many_wrong_keys");
  EXPECT_EQ(shop.ask("GET", "/api/jobs/tern", {wrong}, true).status, 200) << "this machine needs no key";
  EXPECT_EQ(shop.ask("GET", "/api/hello", {}, false).status, 200) << "whoever brings no key is not guessing";
  shop.now = 1000;
  EXPECT_EQ(shop.ask("GET", "/api/jobs/tern", {right}, false).status, 200);
}

TEST(Gate, WrongCodesCountAsWrongKeysAndARightOneForgivesThem) {
  Shop shop;
  const std::pair<std::string, std::string> token = {"Fettle-Token", "token"};
  shop.answer = [] { return refused(401, {Problem{"server.wrong_code", {}, {}}}, Language::english); };
  for (int i = 0; i < 2; ++i) EXPECT_EQ(code_in(shop.ask("POST", "/api/pair", {token}, false)), "401 server.wrong_code");
  shop.answer = [] { return answered("{}"); };
  EXPECT_EQ(shop.ask("POST", "/api/pair", {token}, false).status, 200);
  shop.answer = [] { return refused(401, {Problem{"server.wrong_code", {}, {}}}, Language::english); };
  for (int i = 0; i < 3; ++i) EXPECT_EQ(code_in(shop.ask("POST", "/api/pair", {token}, false)), "401 server.wrong_code");
  EXPECT_EQ(code_in(shop.ask("POST", "/api/pair", {token}, false)), "429 server.too_many_wrong_keys");
}

TEST(Gate, WhatAHandlerThrowsBecomesAnAnswer) {
  Shop shop;
  shop.answer = []() -> HttpResponse { throw StoreError(Problem{"store.disk_full", {}, {verbatim("file", "shop.fettle")}}); };
  EXPECT_EQ(code_in(shop.ask("GET", "/api/hello")), "503 store.disk_full");
  shop.answer = []() -> HttpResponse { throw WorldError("the disk is gone"); };
  EXPECT_EQ(code_in(shop.ask("GET", "/api/hello")), "503 server.world_failed");
  shop.answer = []() -> HttpResponse { throw InternalError("this must hold"); };
  EXPECT_EQ(code_in(shop.ask("GET", "/api/hello")), "500 server.fault_of_ours");
}

TEST(Gate, GivesFilesWithTheirTagsAndPackedWhereThatIsTaken) {
  Shop shop;
  const HttpResponse index = shop.ask("GET", "/");
  EXPECT_EQ(index.body, "<p>page</p>");
  EXPECT_EQ(field_in(index, "Cache-Control"), "no-cache");
  EXPECT_EQ(field_in(index, "ETag"), "\"aa11\"");
  const HttpResponse plain = shop.ask("GET", "/assets/page-1a.js", {{"Accept-Encoding", "br, gzip;q=0"}});
  EXPECT_EQ(plain.body, "let long_script = 1;");
  EXPECT_EQ(field_in(plain, "Cache-Control"), "public, max-age=31536000, immutable");
  const HttpResponse packed = shop.ask("GET", "/assets/page-1a.js", {{"Accept-Encoding", "br, GZIP ;q=0.5"}});
  EXPECT_EQ(packed.body, "packed");
  EXPECT_EQ(field_in(packed, "Content-Encoding"), "gzip");
  EXPECT_EQ(field_in(packed, "Vary"), "Accept-Encoding");
  const HttpResponse known = shop.ask("GET", "/", {{"If-None-Match", "\"zz\", W/\"aa11\""}});
  EXPECT_EQ(known.status, 304);
  EXPECT_EQ(known.body, "");
  EXPECT_EQ(shop.ask("GET", "/assets/page-1a.js", {{"If-None-Match", "\"bb22-gz\""}}).status, 200) << "the packed bytes are another answer";
  EXPECT_EQ(code_in(shop.ask("GET", "/assets/none.js")), "404 server.no_such_path");
  EXPECT_EQ(code_in(shop.ask("GET", "/%69ndex.html")), "404 server.no_such_path");
}

TEST(Gate, AProgramWithoutItsPageSaysSo) {
  EXPECT_NE(no_page(Language::english).body.find("without its page"), std::string::npos);  // server.no_page
  EXPECT_NE(no_page(Language::german).body.find("ohne seine Seite"), std::string::npos);
}

TEST(Answers, CarryTheirSecurityFieldsAndLength) {
  const std::string head = head_of({200, "text/html", {{"ETag", "\"a\""}}, {}}, 12, true);
  for (const char* wanted : {"HTTP/1.1 200 OK\r\n", "Content-Type: text/html; charset=utf-8\r\n", "Content-Length: 12\r\n", "Cache-Control: no-store\r\n",
                             "default-src 'self'; img-src 'self' data: blob:", "frame-ancestors 'none'", "nosniff", "no-referrer", "Connection: keep-alive\r\n\r\n"}) {
    EXPECT_NE(head.find(wanted), std::string::npos) << wanted;
  }
  EXPECT_EQ(head.find("unsafe"), std::string::npos);
  EXPECT_EQ(head_of({304, "", {}, {}}, 0, false).find("Content-Length"), std::string::npos);
  EXPECT_EQ(language_of_browser(""), Language::english);
  EXPECT_EQ(language_of_browser("en-GB,de"), Language::english);
  EXPECT_EQ(language_of_browser("fr,de"), Language::german);
  EXPECT_EQ(language_of_browser("den"), Language::english);
}

}  // namespace
}  // namespace fettle
