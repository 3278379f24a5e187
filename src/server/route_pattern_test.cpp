#include "server/route_pattern.h"

#include <gtest/gtest.h>

#include "server/route_table.h"

namespace fettle {
namespace {

using Words = std::map<std::string, std::string>;

TEST(RoutePattern, GivesTheWordsOfAPath) {
  EXPECT_EQ(match_path("/api/jobs/{job}", "/api/jobs/tern"), (Words{{"job", "tern"}}));
  EXPECT_EQ(match_path("/api/jobs/{job}/rounds/{part}", "/api/jobs/tern/rounds/bore-1"), (Words{{"job", "tern"}, {"part", "bore-1"}}));
  EXPECT_EQ(match_path("/api/jobs/{job}", "/api/jobs/%C3%B6%20x"), (Words{{"job", "ö x"}}));
  EXPECT_EQ(match_path("/api/jobs/{job}/acts", "/api/jobs/linnet%2F4%20%C3%BC/acts"), (Words{{"job", "linnet/4 ü"}}));
  EXPECT_EQ(match_path("/api/jobs/{job}", "/api/jobs/a%2fb%3F%23%25"), (Words{{"job", "a/b?#%"}}));
  EXPECT_EQ(match_path("/", "/"), Words{});
}

TEST(RoutePattern, MatchesNothingElse) {
  for (const char* path : {"/api/jobs", "/api/jobs/", "/api/jobs/a/b", "/api/job/a", "api/jobs/a", "/api%2Fjobs/a", "/api/jobs%2Fa", "/api/jobs/a/%2F", "/api/jobs/a%00", "/api/jobs/a%0A",
                           "/api/jobs/%C3", "/api/jobs/%4", "/api/jobs/%zz", "/api/jobs/%7F", "/api/jobs/a%2F%09", "/api/jobs/%C2%85", "//api/jobs/a", ""}) {
    EXPECT_EQ(match_path("/api/jobs/{job}", path), std::nullopt) << path;
  }
}

TEST(RoutePattern, UndoesEscapes) {
  EXPECT_EQ(percent_decoded("a%41%6a%2f"), "aAj/");
  EXPECT_EQ(percent_decoded(""), "");
  for (const char* broken : {"%", "%4", "a%4", "%g0", "%0g", "%%41"}) EXPECT_EQ(percent_decoded(broken), std::nullopt) << broken;
}

TEST(RouteTable, FindsByPathAndMethod) {
  const RouteTable table({{"GET", "/api/jobs/{job}", false, 0, {}}, {"POST", "/api/jobs/{job}", true, 10, {}}, {"POST", "/api/jobs", true, 10, {}}});
  const auto got = table.find("GET", "/api/jobs/tern");
  ASSERT_NE(got.route, nullptr);
  EXPECT_EQ(got.route->method, "GET");
  EXPECT_EQ(got.words, (Words{{"job", "tern"}}));
  EXPECT_EQ(table.find("HEAD", "/api/jobs/tern").route, got.route);
  EXPECT_EQ(table.find("POST", "/api/jobs/tern").route->method, "POST");
  EXPECT_EQ(table.find("PUT", "/api/jobs/tern").route, nullptr);
  EXPECT_EQ(table.find("PUT", "/api/jobs/tern").other_methods, "GET, HEAD, POST");
  EXPECT_EQ(table.find("GET", "/api/jobs").other_methods, "POST");
  EXPECT_EQ(table.find("GET", "/api/none").other_methods, "");
}

}  // namespace
}  // namespace fettle
