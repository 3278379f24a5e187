#include "app/open_folder.h"

#include <filesystem>
#include <fstream>
#include <iterator>

#include "job/fold.h"

namespace fettle {
namespace {

constexpr std::uintmax_t kLargestFile = 64U << 20U;

std::optional<std::string> read_file(const std::filesystem::path& path, Problems& problems) {
  std::error_code error;
  const bool regular = std::filesystem::is_regular_file(path, error);
  const auto size = regular ? std::filesystem::file_size(path, error) : 0;
  if (!regular || error) {
    problems.push_back(Problem{"app.no_file", {}, {verbatim("file", path.string())}});
    return std::nullopt;
  }
  if (size > kLargestFile) {
    problems.push_back(Problem{"app.file_too_large", {}, {verbatim("file", path.string())}});
    return std::nullopt;
  }
  std::ifstream stream(path, std::ios::binary);
  std::string text((std::istreambuf_iterator<char>(stream)), std::istreambuf_iterator<char>());
  if (stream.bad()) {
    problems.push_back(Problem{"app.no_file", {}, {verbatim("file", path.string())}});
    return std::nullopt;
  }
  return text;
}

}  // namespace

Result<FolderTexts> read_folder(const std::string& path) {
  std::error_code error;
  if (!std::filesystem::is_directory(path, error)) return Problem{"app.no_folder", {}, {verbatim("folder", path)}};
  Problems problems;
  const auto job = read_file(std::filesystem::path(path) / "job.toml", problems);
  const auto readings = read_file(std::filesystem::path(path) / "readings.csv", problems);
  if (!problems.empty()) return problems;
  return FolderTexts{path, *job, *readings};
}

Result<Job> open_folder(const std::string& path) {
  Result<FolderTexts> texts = read_folder(path);
  if (!texts.ok()) return texts.problems();
  Imported imported = import_folder(texts.value());
  if (!imported.problems.empty()) return std::move(imported.problems);
  Folded folded = fold(imported.events);
  if (!folded.problems.empty()) return std::move(folded.problems);
  return std::move(folded.job);
}

}  // namespace fettle
