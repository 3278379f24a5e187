#include "server/border.h"

#include <gtest/gtest.h>

#include "server/target.h"

namespace fettle {
namespace {

const Border kShop{{"localhost", "127.0.0.1", "[::1]", "shop.local"}, "token of the shop"};
const Caller kHere{"127.0.0.1", true, false};
const Caller kAway{"192.168.1.7", false, true};

Incoming sent(std::vector<std::pair<std::string, std::string>> fields, int version = 11) { return {version, "GET", "/api/hello", std::move(fields)}; }

std::string code(const std::optional<Refusal>& refusal) { return refusal ? std::to_string(refusal->status) + " " + refusal->problem.code : "fine"; }

TEST(Border, TakesOneAllowedHost) {
  for (const char* host : {"localhost", "LOCALHOST", "localhost:8420", "127.0.0.1:1", "[::1]", "[::1]:80", "shop.local"}) {
    EXPECT_EQ(code(refuse_head(sent({{"hOst", host}}), kHere, kShop)), "fine") << host;
  }
  for (const char* host : {"", "shop.example", "localhost.", "localhost:", "localhost:x", "localhost:123456", "localhost:80:80", "a@localhost", "[::1", "[::1]x",
                           "[::1]x:80", "localhost shop", "::1", "127.0.0.1.example"}) {
    EXPECT_EQ(code(refuse_head(sent({{"Host", host}}), kHere, kShop)), "421 server.foreign_host") << host;
  }
  EXPECT_EQ(code(refuse_head(sent({}), kHere, kShop)), "400 server.no_host");
  EXPECT_EQ(code(refuse_head(sent({{"Host", "localhost"}, {"host", "localhost"}}), kHere, kShop)), "400 server.no_host");
}

TEST(Border, TakesABodyWhoseEndIsToldInOneWay) {
  using Fields = std::vector<std::pair<std::string, std::string>>;
  const auto framing = [](Fields fields, int version = 11) {
    fields.emplace_back("Host", "localhost");
    return code(refuse_head(sent(fields, version), kHere, kShop));
  };
  EXPECT_EQ(framing({{"Content-Length", "12"}}), "fine");
  EXPECT_EQ(framing({{"Transfer-Encoding", "Chunked"}}), "fine");
  const std::vector<Fields> unsound = {{{"Content-Length", "12"}, {"Content-Length", "12"}},
                                       {{"Content-Length", "12, 12"}},
                                       {{"Content-Length", "+12"}},
                                       {{"Content-Length", ""}},
                                       {{"Content-Length", "12"}, {"Transfer-Encoding", "chunked"}},
                                       {{"Transfer-Encoding", "chunked"}, {"Transfer-Encoding", "chunked"}},
                                       {{"Transfer-Encoding", "gzip, chunked"}},
                                       {{"Transfer-Encoding", "xchunked"}},
                                       {{"Transfer-Encoding", ""}}};
  for (const Fields& each : unsound) EXPECT_EQ(framing(each), "400 server.body_framing") << each.front().second;
  EXPECT_EQ(framing({{"Transfer-Encoding", "chunked"}}, 10), "400 server.body_framing");
  EXPECT_EQ(framing({{"Expect", "100-Continue"}}), "fine");
  EXPECT_EQ(framing({{"Expect", "cake"}}), "417 server.expectation");
}

TEST(Border, SpeaksInPlainTextToThisMachineOnly) {
  const Incoming hello = sent({{"Host", "shop.local"}});
  EXPECT_EQ(code(refuse_head(hello, {"192.168.1.7", false, false}, kShop)), "403 server.needs_tls");
  EXPECT_EQ(code(refuse_head(hello, kAway, kShop)), "fine");
}

TEST(Border, TakesNothingFromAForeignPage) {
  const auto page = [](std::vector<std::pair<std::string, std::string>> fields, bool sends, const Caller& caller = kHere) {
    fields.emplace_back("Host", "shop.local:8420");
    return code(refuse_foreign_page(sent(std::move(fields)), caller, sends));
  };
  EXPECT_EQ(page({}, true), "fine");
  EXPECT_EQ(page({{"Origin", "http://shop.local:8420"}, {"Sec-Fetch-Site", "same-origin"}}, true), "fine");
  EXPECT_EQ(page({{"Origin", "https://shop.local:8420"}}, true, kAway), "fine");
  EXPECT_EQ(page({{"Origin", "http://shop.local:8420"}}, true, kAway), "403 server.foreign_page");
  EXPECT_EQ(page({{"Origin", "http://shop.local"}}, true), "403 server.foreign_page");
  EXPECT_EQ(page({{"Origin", "null"}}, true), "403 server.foreign_page");
  EXPECT_EQ(page({{"Origin", ""}}, true), "403 server.foreign_page");
  EXPECT_EQ(page({{"Sec-Fetch-Site", "same-site"}}, true), "403 server.foreign_page");
  EXPECT_EQ(page({{"Sec-Fetch-Site", "none"}}, true), "403 server.foreign_page");
  EXPECT_EQ(page({{"Sec-Fetch-Site", "none"}}, false), "fine");
  EXPECT_EQ(page({{"Sec-Fetch-Site", "cross-site"}}, false), "403 server.foreign_page");
}

TEST(Border, WantsItsToken) {
  EXPECT_EQ(code(refuse_token(sent({{"Fettle-Token", "token of the shop"}}), kShop)), "fine");
  EXPECT_EQ(code(refuse_token(sent({{"Fettle-Token", "token of the shed"}}), kShop)), "403 server.token");
  EXPECT_EQ(code(refuse_token(sent({}), kShop)), "403 server.token");
}

TEST(Target, IsAPathAndWords) {
  const auto target = read_target("/api/live?job=tern&name=a%20b+c&name=%C3%B6&&empty");
  ASSERT_TRUE(target);
  EXPECT_EQ(target->path, "/api/live");
  EXPECT_EQ(target->query, (std::map<std::string, std::string>{{"job", "tern"}, {"name", "ö"}, {"empty", ""}}));
  for (const char* wrong : {"", "api", "*", "http://localhost/", "/a b", "/a#b", "/a?b=%", "/a?b=%ff", "/a?b=%00", "/a?%zz=1", "/\x7f", "/\xc3\xb6"}) {
    EXPECT_FALSE(read_target(wrong)) << wrong;
  }
}

TEST(Incoming, FindsACookieByItsWholeName) {
  const Incoming incoming = sent({{"Cookie", "akey=1; key = 2;key=3"}, {"cookie", "other=4"}});
  EXPECT_EQ(cookie_of(incoming, "key"), "3");
  EXPECT_EQ(cookie_of(incoming, "other"), "4");
  EXPECT_EQ(cookie_of(incoming, "ke"), "");
}

}  // namespace
}  // namespace fettle
