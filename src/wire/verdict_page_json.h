#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace fettle {

/// The verdicts of an engine in words, see docs/HTTP.md.
struct VerdictPage {
  struct Reading {
    std::string where;
    std::string text;
    std::optional<std::string> said;
    std::string who;
    std::string note;
  };
  struct SizeAt {
    std::string where;
    std::string as_measured;
    std::optional<std::string> best;
  };
  struct Doubt {
    std::string name;
    std::string share;
    int bar;  ///< 0 to 100
  };
  struct Definition {
    std::string name;
    std::string value;
    std::string state;
    std::string word;
    bool own;
  };
  struct Definitions {
    std::string line;
    std::vector<Definition> rows;
  };
  struct Taken {
    std::string who;
    std::string word;
    std::string why;
    std::string at;
  };
  struct Row {
    std::string part;
    std::string limit;
    std::string name;
    std::string where;
    std::string state;
    std::string word;
    bool overruled;
    std::string figures;
    std::string chance;
    std::string bar;
    std::optional<std::string> picture;
    std::vector<Reading> readings;
    std::vector<SizeAt> sizes;
    std::vector<std::string> moved;
    std::string limit_line;
    std::string rule_line;
    std::string judged_by;
    std::vector<Doubt> doubt;
    std::optional<Definitions> definitions;
    std::optional<std::vector<std::string>> settle;
    std::optional<Taken> taken;
  };
  struct NotJudged {
    std::string part;
    std::string name;
    std::string why;
  };
  struct Seen {
    std::string part;
    std::string words;
  };
  struct Group {
    std::string name;
    std::string state;
    std::string words;
  };
  std::string job;
  std::string name;
  std::int64_t position;
  std::string sentence;
  std::string joint;
  std::string rule;
  std::vector<Row> rows;
  std::vector<NotJudged> not_judged;
  std::vector<Seen> by_eye;
  std::vector<Group> groups;
  std::vector<std::string> notices;
  std::vector<std::string> cautions;
};

/// verdict-page.schema.json
[[nodiscard]] std::string verdict_page_json(const VerdictPage& page);

}  // namespace fettle
