#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace fettle::house {

/// The text files of a repository by their path from its root ("src/base/result.h"), in order of path. The checks are functions
/// from such a tree to findings; the cases under tests/house make small ones without touching the disk.
using SourceTree = std::map<std::string, std::string, std::less<>>;

enum class Weight { refusal, warning };

/// One thing a check has to say. `line` counts from 1; 0 stands for the file as a whole.
struct Finding {
  std::string path;
  int line;
  std::string what;  ///< what is wrong and what to do about it
  Weight weight;
  bool operator==(const Finding&) const = default;
};

using Findings = std::vector<Finding>;

/// Reads src, tests, tools, cmake and docs and the files of the root that the checks look at. Gives an empty tree if there is
/// no folder src under `root`. Error: std::filesystem::filesystem_error if a file cannot be read.
[[nodiscard]] SourceTree read_source_tree(const std::filesystem::path& root);

/// "src/a/b.h:3: what is wrong. What to do." or, for a whole file, without the line; warnings say so.
[[nodiscard]] std::string to_line(const Finding& finding);

[[nodiscard]] std::vector<std::string_view> lines_of(std::string_view text);
[[nodiscard]] std::vector<std::string_view> words_of(std::string_view line);
[[nodiscard]] std::string_view trimmed(std::string_view text);
/// The folder under src that a path lies in: "src/base/result.h" gives "base"; nothing of the kind gives "".
[[nodiscard]] std::string_view room_of(std::string_view path);
[[nodiscard]] bool is_cpp(std::string_view path);
[[nodiscard]] bool is_test(std::string_view path);

/// What every check program does: read the tree named by the first argument (or the present folder), run, print, count.
/// Gives the exit code: 0 nothing to refuse, 1 something was refused, 2 there is no such tree.
[[nodiscard]] int run_check(int argc, char** argv, std::string_view name, Findings (*check)(const SourceTree&));

}  // namespace fettle::house
