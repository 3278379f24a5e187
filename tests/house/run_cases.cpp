// Runs one check of the house on small trees that break its rules on purpose.
//
// A case is one text file: lines that say what it is about, then ">>> path" before the content of each file of the tree, and at
// the end ">>> expected" with one line for each finding: "path:line: beginning of what is said". No line there means that the
// tree must pass. Every expected line must be met by one finding, and there may be no other finding.

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <string>

#include "checks.h"

namespace {

using fettle::house::Finding;
using fettle::house::Findings;
using fettle::house::SourceTree;

struct Case {
  SourceTree tree;
  std::vector<std::string> expected;
};

Case read_case(const std::filesystem::path& path) {
  constexpr std::string_view kMark = ">>> ";
  std::ifstream in(path, std::ios::binary);
  const std::string text{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
  Case out;
  std::string section;
  for (const std::string_view line : fettle::house::lines_of(text)) {
    if (line.starts_with(kMark)) {
      section = std::string(line.substr(kMark.size()));
      if (section != "expected") out.tree.emplace(section, "");
    } else if (section == "expected") {
      if (!line.empty()) out.expected.emplace_back(line);
    } else if (!section.empty()) {
      out.tree[section] += std::string(line) + "\n";
    }
  }
  return out;
}

/// "@N" on a line of its own stands for N lines of code, so that a case on long files stays short.
void unfold(SourceTree& tree) {
  for (auto& [path, text] : tree) {
    std::string out;
    for (const std::string_view line : fettle::house::lines_of(text)) {
      const int count = line.starts_with('@') ? std::stoi(std::string(line.substr(1))) : 0;
      if (count == 0) out += std::string(line) + "\n";
      for (int i = 0; i < count; ++i) out += "int a;\n";
    }
    text = out;
  }
}

/// Prints what differs. Gives whether nothing does.
bool run_case(const std::string& name, Case one, Findings (*check)(const SourceTree&)) {
  unfold(one.tree);
  std::vector<std::string> left;
  for (const Finding& finding : check(one.tree)) left.push_back(to_line(finding));
  bool good = true;
  for (const std::string& expected : one.expected) {
    const auto met = std::find_if(left.begin(), left.end(), [&](const std::string& each) { return each.starts_with(expected); });
    if (met == left.end()) {
      std::cout << name << ": not found: " << expected << "\n";
      good = false;
    } else {
      left.erase(met);
    }
  }
  for (const std::string& extra : left) std::cout << name << ": not expected: " << extra << "\n";
  return good && left.empty();
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 3) {
    std::cerr << "house_cases <folder of cases> <arrows|chance|texts|size>\n";
    return 2;
  }
  const std::string which = argv[2];
  const auto check = which == "arrows"   ? fettle::house::check_arrows
                     : which == "chance" ? fettle::house::check_chance
                     : which == "texts"  ? fettle::house::check_texts
                                         : fettle::house::check_size;
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator(argv[1])) files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  int failed = 0;
  int refused = 0;
  int passed = 0;
  for (const auto& file : files) {
    Case one = read_case(file);
    (one.expected.empty() ? passed : refused) += 1;
    if (!run_case(file.filename().string(), std::move(one), check)) ++failed;
  }
  std::cout << which << " cases: " << files.size() << " ran (" << refused << " that must be refused, " << passed
            << " that must pass), " << failed << " failed\n";
  return failed == 0 && refused > 0 && passed > 0 ? 0 : 1;
}
