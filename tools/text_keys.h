#pragma once

#include <map>
#include <set>
#include <string>
#include <string_view>

#include "source_tree.h"

namespace fettle::house {

/// One "key = sentence" line of a text file.
struct Sentence {
  std::string path;
  int line;
  std::string pattern;
};
using Sentences = std::map<std::string, Sentence, std::less<>>;

/// The keys of all files src/text/<language>/*.txt. Lines that are none and keys given twice become findings.
[[nodiscard]] Sentences read_sentences(const SourceTree& tree, std::string_view language, Findings& findings);

/// The names of the arguments that a sentence uses: "{n} {n|row|rows} of {file}" gives n and file.
[[nodiscard]] std::set<std::string> arguments_in(std::string_view pattern);

/// The problem codes that a language's keys speak of: "problem.entry.too_long" and its ".do" give "entry.too_long".
[[nodiscard]] std::set<std::string> problem_codes(const Sentences& sentences);

}  // namespace fettle::house
