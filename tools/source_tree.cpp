#include "source_tree.h"

#include <algorithm>
#include <array>
#include <fstream>
#include <iostream>
#include <iterator>

namespace fettle::house {
namespace {

namespace fs = std::filesystem;

constexpr std::array<std::string_view, 5> kFolders = {"src", "tests", "tools", "cmake", "docs"};
constexpr std::array<std::string_view, 2> kRootFiles = {"CMakeLists.txt", "CMakePresets.json"};

std::string read_file(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  if (!in) throw fs::filesystem_error("cannot be read", path, std::make_error_code(std::errc::io_error));
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

/// The cases of the checks themselves break every rule on purpose.
bool is_left_out(const std::string& path) {
  return path.starts_with("tests/house/") || path.starts_with("tests/refuse/") || path.find("/seeds/") != std::string::npos;
}

}  // namespace

SourceTree read_source_tree(const fs::path& root) {
  SourceTree tree;
  if (!fs::is_directory(root / "src")) return tree;
  for (const std::string_view folder : kFolders) {
    if (!fs::is_directory(root / folder)) continue;
    for (const auto& entry : fs::recursive_directory_iterator(root / folder)) {
      const std::string path = entry.path().lexically_relative(root).generic_string();
      if (entry.is_regular_file() && !is_left_out(path)) tree.emplace(path, read_file(entry.path()));
    }
  }
  for (const std::string_view file : kRootFiles) {
    if (fs::is_regular_file(root / file)) tree.emplace(std::string(file), read_file(root / file));
  }
  return tree;
}

std::string to_line(const Finding& finding) {
  std::string out = finding.path;
  if (finding.line > 0) out += ":" + std::to_string(finding.line);
  out += ": ";
  switch (finding.weight) {
    case Weight::refusal: break;
    case Weight::warning: out += "(warning) "; break;
  }
  return out + finding.what;
}

std::vector<std::string_view> lines_of(std::string_view text) {
  std::vector<std::string_view> lines;
  while (!text.empty()) {
    const auto end = text.find('\n');
    lines.push_back(text.substr(0, end));
    text = end == std::string_view::npos ? std::string_view() : text.substr(end + 1);
  }
  return lines;
}

std::vector<std::string_view> words_of(std::string_view line) {
  std::vector<std::string_view> words;
  while (true) {
    const auto first = line.find_first_not_of(" \t\r\n");
    if (first == std::string_view::npos) return words;
    const auto end = std::min(line.find_first_of(" \t\r\n", first), line.size());
    words.push_back(line.substr(first, end - first));
    line = line.substr(end);
  }
}

std::string_view trimmed(std::string_view text) {
  const auto first = text.find_first_not_of(" \t\r");
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t\r") - first + 1);
}

std::string_view room_of(std::string_view path) {
  constexpr std::string_view kSource = "src/";
  if (!path.starts_with(kSource)) return {};
  path = path.substr(kSource.size());
  const auto slash = path.find('/');
  return slash == std::string_view::npos ? std::string_view() : path.substr(0, slash);
}

bool is_cpp(std::string_view path) { return path.ends_with(".h") || path.ends_with(".cpp"); }

bool is_test(std::string_view path) { return path.ends_with("_test.cpp") || path.starts_with("tests/"); }

int run_check(int argc, char** argv, std::string_view name, Findings (*check)(const SourceTree&)) {
  const fs::path root = argc > 1 ? fs::path(argv[1]) : fs::current_path();
  const SourceTree tree = read_source_tree(root);
  if (tree.empty()) {
    std::cerr << name << ": " << root.string() << " has no folder src. Give the root of the repository.\n";
    return 2;
  }
  const Findings findings = check(tree);
  for (const Finding& finding : findings) std::cout << to_line(finding) << "\n";
  const auto refused = std::count_if(findings.begin(), findings.end(),
                                     [](const Finding& each) { return each.weight == Weight::refusal; });
  std::cout << name << ": " << tree.size() << " files read, " << refused << " refused\n";
  return refused == 0 ? 0 : 1;
}

}  // namespace fettle::house
