// Each worked example of the trade has one test that owns it: tests/outside/owners.csv against what the tests name.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <sstream>

namespace fettle {
namespace {

namespace fs = std::filesystem;

struct ExampleRow {
  std::string example;
  std::string owner;  ///< a file, or "issue 9: ..." or "later: ..." where its subject does not exist yet
  std::set<std::string> users;
};

bool exists_later(const ExampleRow& row) {
  static const std::regex kLater("(issue [0-9]+|later): .+");
  return std::regex_match(row.owner, kLater);
}

const fs::path& root() {
  static const fs::path kRoot(FETTLE_SOURCE_DIR);
  return kRoot;
}

std::vector<ExampleRow> register_rows() {
  std::ifstream file(root() / "tests/outside/owners.csv");
  std::string line;
  std::getline(file, line);
  EXPECT_EQ(line, "example;owner;users;remark");
  std::vector<ExampleRow> out;
  while (std::getline(file, line)) {
    EXPECT_EQ(std::count(line.begin(), line.end(), ';'), 3) << line;
    std::istringstream cells(line);
    ExampleRow row;
    std::string users;
    std::getline(cells, row.example, ';');
    std::getline(cells, row.owner, ';');
    std::getline(cells, users, ';');
    std::istringstream words(users);
    for (std::string word; words >> word;) EXPECT_TRUE(row.users.insert(word).second) << line;
    out.push_back(std::move(row));
  }
  return out;
}

std::string text_of(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream out;
  out << file.rdbuf();
  return out.str();
}

/// "W-27" in "tests/w-27_shell.csv" and in "case: W-27, a shell".
void add_named(const std::string& text, const std::string& file, std::map<std::string, std::set<std::string>>& named) {
  static const std::regex kExample("(^|[^A-Za-z0-9])([WwKk])-([0-9][0-9])(?![0-9])");
  for (auto found = std::sregex_iterator(text.begin(), text.end(), kExample); found != std::sregex_iterator(); ++found) {
    const char letter = (*found)[2].str()[0] == 'w' || (*found)[2].str()[0] == 'W' ? 'W' : 'K';
    named[std::string(1, letter) + "-" + (*found)[3].str()].insert(file);
  }
}

/// Which case files and test sources name which example. Of a recorded run only what stands above its command: the rest is output.
std::map<std::string, std::set<std::string>> named_in_tests() {
  std::map<std::string, std::set<std::string>> out;
  const auto read = [&](const fs::path& path, std::string text) {
    const std::string name = fs::relative(path, root()).generic_string();
    if (name == "tests/outside/owners.csv" || name == "tests/outside/owners_test.cpp") return;
    add_named(path.filename().string() + "\n" + std::move(text), name, out);
  };
  for (const char* folder : {"tests/outside", "tests/sheets"}) {
    for (const auto& each : fs::recursive_directory_iterator(root() / folder)) {
      if (each.is_regular_file()) read(each.path(), text_of(each.path()));
    }
  }
  for (const char* folder : {"src", "tests/sceptic"}) {
    for (const auto& each : fs::recursive_directory_iterator(root() / folder)) {
      if (each.is_regular_file() && each.path().filename().string().ends_with("_test.cpp")) read(each.path(), text_of(each.path()));
    }
  }
  for (const auto& each : fs::directory_iterator(root() / "tests/cli/runs")) {
    if (each.path().extension() != ".run") continue;
    const std::string text = text_of(each.path());
    read(each.path(), text.substr(0, text.find(">>> command")));
  }
  return out;
}

TEST(Owners, EachExampleHasOneOwnerThatNamesIt) {
  const auto rows = register_rows();
  const auto named = named_in_tests();
  // 84 examples have numbers in the worked examples; a line that is lost here is noticed.
  EXPECT_EQ(rows.size(), 84U);
  std::set<std::string> seen;
  for (const ExampleRow& row : rows) {
    EXPECT_TRUE(seen.insert(row.example).second) << row.example << " has two owners";
    std::set<std::string> expected = row.users;
    if (!exists_later(row)) {
      EXPECT_TRUE(fs::is_regular_file(root() / row.owner)) << row.example << ": " << row.owner;
      EXPECT_TRUE(expected.insert(row.owner).second) << row.example << ": an owner is no user beside";
    }
    const auto found = named.find(row.example);
    const std::set<std::string> got = found == named.end() ? std::set<std::string>() : found->second;
    std::vector<std::string> silent;
    std::set_difference(expected.begin(), expected.end(), got.begin(), got.end(), std::back_inserter(silent));
    for (const std::string& each : silent) ADD_FAILURE() << each << " is said to own or use " << row.example << " and does not name it";
    std::vector<std::string> unsaid;
    std::set_difference(got.begin(), got.end(), expected.begin(), expected.end(), std::back_inserter(unsaid));
    for (const std::string& each : unsaid) ADD_FAILURE() << each << " names " << row.example << "; put it into owners.csv as owner or user";
  }
  for (const auto& [example, files] : named) EXPECT_TRUE(seen.contains(example)) << example << " of " << *files.begin() << " is not in owners.csv";
}

// An example of a printed page that is wrong is owned by the sheet on which the proof must notice it.
TEST(Owners, ATrapIsOwnedWhereItIsNoticed) {
  std::map<std::string, std::string> owner;
  for (const ExampleRow& row : register_rows()) owner[row.example] = row.owner;
  for (const char* trap : {"W-20", "W-22", "W-29", "W-36", "W-40", "W-43", "W-46", "W-50", "W-51", "W-52", "W-61", "W-68", "W-69", "W-76", "W-77"}) {
    EXPECT_TRUE(owner[trap].starts_with("tests/sheets/traps/")) << trap << " " << owner[trap];
    EXPECT_NE(text_of(root() / owner[trap]).find("# expect: "), std::string::npos) << trap;
  }
}

}  // namespace
}  // namespace fettle
