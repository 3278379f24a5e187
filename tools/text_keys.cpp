#include "text_keys.h"

namespace fettle::house {
namespace {

constexpr std::string_view kProblem = "problem.";
constexpr std::string_view kDo = ".do";

}  // namespace

Sentences read_sentences(const SourceTree& tree, std::string_view language, Findings& findings) {
  const std::string folder = "src/text/" + std::string(language) + "/";
  Sentences out;
  for (const auto& [path, text] : tree) {
    if (!path.starts_with(folder) || !path.ends_with(".txt")) continue;
    int line = 0;
    for (const std::string_view each : lines_of(text)) {
      ++line;
      const std::string_view row = trimmed(each);
      if (row.empty() || row.front() == '#') continue;
      const auto equals = row.find('=');
      const std::string key(trimmed(row.substr(0, equals)));
      const std::string pattern(equals == std::string_view::npos ? std::string_view() : trimmed(row.substr(equals + 1)));
      if (key.empty() || pattern.empty()) {
        findings.push_back({path, line, "this is no sentence. Write: key = sentence.", Weight::refusal});
      } else if (!out.emplace(key, Sentence{path, line, pattern}).second) {
        findings.push_back({path, line, key + " is given twice. Keep one.", Weight::refusal});
      }
    }
  }
  return out;
}

std::set<std::string> arguments_in(std::string_view pattern) {
  std::set<std::string> out;
  for (auto open = pattern.find('{'); open != std::string_view::npos; open = pattern.find('{', open + 1)) {
    const auto close = pattern.find('}', open);
    if (close == std::string_view::npos) break;
    const std::string_view inside = pattern.substr(open + 1, close - open - 1);
    out.emplace(inside.substr(0, inside.find('|')));
  }
  return out;
}

std::set<std::string> problem_codes(const Sentences& sentences) {
  std::set<std::string> out;
  for (const auto& [key, sentence] : sentences) {
    std::string_view code = key;
    if (!code.starts_with(kProblem)) continue;
    code = code.substr(kProblem.size());
    if (code.ends_with(kDo)) code = code.substr(0, code.size() - kDo.size());
    out.emplace(code);
  }
  return out;
}

}  // namespace fettle::house
