// Runs the plain-text cases of tests/outside/kinds: parts, readings, limits, and what every definition of a kind makes of them.
#include "app/kinds_on_bench.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>

#include "catalogue/catalogue.h"
#include "catalogue/figure_style.h"

namespace fettle {
namespace {

struct Wanted {
  std::string name;    ///< part and definition, or limit
  std::string figure;  ///< as it is shown, without its unit
  std::string keeps;   ///< of a limit: "keeps", "beyond"
  std::string place;
};

struct KindCase {
  std::string name;
  PartsRead job;
  UnitId unit = UnitId::millimetre;
  std::vector<Wanted> figures;
  std::vector<Wanted> verdicts;
  std::map<std::string, std::string> definition_of;  ///< of a limit
};

std::vector<std::string> words_of(const std::string& text) {
  std::istringstream in(text);
  std::vector<std::string> out;
  for (std::string word; in >> word;) out.push_back(word);
  return out;
}

std::pair<std::string, std::string> halves(const std::string& text, const std::string& at, const std::string& place) {
  const auto found = text.find(at);
  FETTLE_ASSERT(found != std::string::npos, place + ": no " + at);
  return {text.substr(0, found), text.substr(found + at.size())};
}

/// "fit liner-in-block bore=block, shaft=liner"
std::string part_table(const std::string& words) {
  const auto space = words.find(' ');
  const auto second = words.find(' ', space + 1);
  if (second == std::string::npos) return part(words.substr(0, space), words.substr(space + 1));
  std::string members;
  for (const std::string& each : words_of(words.substr(second + 1))) {
    const auto equals = each.find('=');
    members += (members.empty() ? "" : ", ") + each.substr(0, equals) + " = \"" + each.substr(equals + 1) + "\"";
  }
  return part(words.substr(0, space), words.substr(space + 1, second - space - 1), members);
}

/// "least stack-least of liner-stack at-least 0.002 in, standard 2 in": id, definition, kind, side, bound
std::string limit_table(const std::string& text, const std::string& place) {
  const auto comma = text.find(", standard ");
  const std::vector<std::string> words = words_of(text.substr(0, comma));
  FETTLE_ASSERT(words.size() >= 6 && words[2] == "of", place);
  std::string bound = words[5];
  for (std::size_t k = 6; k < words.size(); ++k) bound += " " + words[k];
  return "[[limit]]\nid = \"" + words[0] + "\"\ndefinition = \"" + words[1] + "\"\nkind = \"" + words[3] + "\"\nrole = \"service\"\nside = \"" + words[4] +
         "\"\nbound = \"" + bound + "\"\nbook = \"b\"\npage = \"1\"\n" +
         (comma == std::string::npos ? "" : "standard = \"" + text.substr(comma + std::string(", standard ").size()) + "\"\n");
}

RowTyped reading(const std::string& text, const std::string& place) {
  const auto [where, rest] = halves(text, " = ", place);
  const auto [shown, gauge] = halves(rest, " by ", place);
  const std::vector<std::string> words = words_of(where);
  FETTLE_ASSERT(words.size() == 2 || words.size() == 3, place);
  return {words[0], words[1], words.size() == 3 ? words[2] : "", shown, gauge};
}

void take_line(const std::string& key, const std::string& text, const std::string& place, KindCase& out) {
  if (key == "part") {
    out.job.parts += part_table(text);
  } else if (key == "reading") {
    out.job.rows.push_back(reading(text, place));
  } else if (key == "limit") {
    out.job.parts += limit_table(text, place);
    out.definition_of[words_of(text)[0]] = words_of(text)[1];
  } else if (key == "units") {
    out.unit = text == "in" ? UnitId::inch : UnitId::millimetre;
  } else if (key == "figure") {
    const auto [name, figure] = halves(text, " = ", place);
    out.figures.push_back({name, figure, {}, place});
  } else if (key == "verdict") {
    const auto [name, rest] = halves(text, " = ", place);
    const auto [figure, keeps] = halves(rest, " ", place);
    out.verdicts.push_back({name, figure, keeps, place});
  } else {
    FETTLE_ASSERT(false, place + ": " + key);
  }
}

std::filesystem::path cases_folder() { return std::filesystem::path(FETTLE_SOURCE_DIR) / "tests" / "outside" / "kinds"; }

std::vector<KindCase> read_cases() {
  std::vector<std::filesystem::path> paths;
  for (const auto& each : std::filesystem::directory_iterator(cases_folder())) {
    if (each.path().extension() == ".txt") paths.push_back(each.path());
  }
  std::sort(paths.begin(), paths.end());
  std::vector<KindCase> out;
  for (const auto& path : paths) {
    std::ifstream file(path);
    std::string line;
    for (int number = 1; std::getline(file, line); ++number) {
      if (line.empty() || line.front() == '#') continue;
      const std::string place = path.filename().string() + ":" + std::to_string(number);
      const auto [key, text] = halves(line, ": ", place);
      if (key == "case") {
        out.push_back({path.filename().string() + ", " + text, {}, UnitId::millimetre, {}, {}, {}});
      } else {
        FETTLE_ASSERT(!out.empty(), place);
        take_line(key, text, place, out.back());
      }
    }
  }
  return out;
}

void expect_figures(const KindCase& of, const JudgedJob& job) {
  for (const Wanted& wanted : of.figures) {
    bool found = false;
    for (const AsMeasured& each : job.measured) {
      if (each.part + " " + each.definition != wanted.name) continue;
      found = true;
      const std::string got = each.value ? shown(*each.value, usual_style(each.dimension, of.unit)) : "needs " + each.missing.front().code;
      EXPECT_EQ(got, wanted.figure) << of.name << " " << wanted.place;
    }
    EXPECT_TRUE(found) << of.name << " " << wanted.place;
  }
}

void expect_verdicts(const KindCase& of, const JudgedJob& job) {
  for (const Wanted& wanted : of.verdicts) {
    bool found = false;
    for (const Verdict& each : job.judgement.verdicts) {
      if (each.limit != wanted.name && each.part + " " + each.limit != wanted.name) continue;
      found = true;
      ASSERT_TRUE(each.as_measured) << of.name << " " << wanted.place;
      const ResultDimension dimension = catalogue().definition(of.definition_of.at(each.limit))->dimension;
      EXPECT_EQ(shown(*each.as_measured, usual_style(dimension, of.unit)), wanted.figure) << of.name << " " << wanted.place;
      EXPECT_EQ(each.reading_keeps.value() ? "keeps" : "beyond", wanted.keeps) << of.name << " " << wanted.place;
    }
    EXPECT_TRUE(found) << of.name << " " << wanted.place;
  }
}

TEST(KindTableCases, AllOfThem) {
  const auto cases = read_cases();
  EXPECT_GE(cases.size(), 4U);
  for (const KindCase& each : cases) {
    SCOPED_TRACE(each.name);
    EXPECT_FALSE(each.figures.empty() && each.verdicts.empty()) << "a case that expects nothing";
    for (const auto& limit : each.definition_of) {
      const bool asked = std::any_of(each.verdicts.begin(), each.verdicts.end(), [&](const Wanted& one) { return one.name.ends_with(limit.first); });
      EXPECT_TRUE(asked) << limit.first << " is held against nothing";
    }
    const JudgedJob job = judged(each.job);
    expect_figures(each, job);
    expect_verdicts(each, job);
  }
}

}  // namespace
}  // namespace fettle
