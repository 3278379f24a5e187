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
  FolderTexts out{path, *job, *readings};
  for (const std::string& file : sheet_files_of(*job)) {
    // One that is not there is told by the importer, with the line that asks for it.
    const std::filesystem::path sheet = std::filesystem::path(path) / file;
    if (std::error_code gone; !std::filesystem::exists(sheet, gone)) continue;
    if (auto text = read_text_file(sheet.string(), problems)) out.sheets.push_back({file, std::move(*text)});
  }
  if (!problems.empty()) return problems;
  return out;
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
