#include "app/open_folder.h"

#include <filesystem>

#include "app/text_files.h"
#include "job/fold.h"

namespace fettle {
Result<FolderTexts> read_folder(const std::string& path) {
  std::error_code error;
  if (!std::filesystem::is_directory(path, error)) return Problem{"app.no_folder", {}, {verbatim("folder", path)}};
  Problems problems;
  const auto job = read_text_file((std::filesystem::path(path) / "job.toml").string(), problems);
  const auto readings = read_text_file((std::filesystem::path(path) / "readings.csv").string(), problems);
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
