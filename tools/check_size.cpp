#include <algorithm>
#include <set>

#include "checks.h"

namespace fettle::house {
namespace {

constexpr std::size_t kExplainAbove = 400;
constexpr std::size_t kRefuseAbove = 600;
constexpr std::size_t kReadmeLines = 10;

std::string lower(std::string_view text) {
  std::string out(text);
  std::transform(out.begin(), out.end(), out.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  return out;
}

void look_at_length(const std::string& path, const std::string& text, Findings& findings) {
  if (path.find("_tables.") != std::string::npos) return;
  const std::size_t lines = lines_of(text).size();
  if (lines > kRefuseAbove) {
    findings.push_back({path, 0, std::to_string(lines) + " lines; 600 is the most. Cut it along its nouns.", Weight::refusal});
  } else if (lines > kExplainAbove) {
    findings.push_back({path, 0, std::to_string(lines) + " lines; above 400 wants a reason in the file.", Weight::warning});
  }
}

void look_at_readme(const SourceTree& tree, const std::string& room, Findings& findings) {
  const std::string path = "src/" + room + "/README.md";
  const auto readme = tree.find(path);
  if (readme == tree.end()) {
    findings.push_back({path, 0, "is missing. Write what the room takes, gives and refuses, in at most ten lines.", Weight::refusal});
    return;
  }
  if (lines_of(readme->second).size() > kReadmeLines) {
    findings.push_back({path, 0, "has more than ten lines. Keep takes, gives, refuses; the rest belongs in docs/.", Weight::refusal});
  }
  for (const std::string_view word : {"takes", "gives", "refuses"}) {
    if (lower(readme->second).find(word) == std::string::npos) {
      findings.push_back({path, 0, "does not say what the room " + std::string(word) + ". Add the line.", Weight::refusal});
    }
  }
}

}  // namespace

Findings check_size(const SourceTree& tree) {
  Findings findings;
  std::set<std::string> rooms;
  for (const auto& [path, text] : tree) {
    if (!path.starts_with("src/") || !is_cpp(path)) continue;
    look_at_length(path, text, findings);
    if (!room_of(path).empty()) rooms.emplace(room_of(path));
  }
  for (const std::string& room : rooms) look_at_readme(tree, room, findings);
  return findings;
}

}  // namespace fettle::house
