#include "job/folder.h"

#include <algorithm>
#include <tuple>

#include "base/digest.h"
#include "job/job_file.h"
#include "job/readings_file.h"
#include "limits/sheet_file.h"
#include "limits/sheet_table.h"

namespace fettle {
namespace {

constexpr const char* kDevice = "folder";

/// Rows in an order that does not depend on where they stood.
void sort_rows(std::vector<WrittenReading>& rows) {
  const auto key = [](const WrittenReading& row) {
    return std::tie(row.reading.setting, row.reading.round, row.reading.order, row.content);
  };
  std::sort(rows.begin(), rows.end(), [&](const auto& a, const auto& b) { return key(a) < key(b); });
}

/// The sheet that job.toml names, as an event's payload; nothing, and its problems, if it cannot be read.
std::optional<WrittenPayload> sheet_of(const NamedSheet& named, const FolderTexts& texts, const std::string& job, Problems& problems) {
  const auto found = std::find_if(texts.sheets.begin(), texts.sheets.end(), [&](const FolderSheet& each) { return each.file == named.file; });
  if (found == texts.sheets.end()) {
    problems.push_back({"job.sheet_missing", named.place, {verbatim("file", named.file)}});
    return std::nullopt;
  }
  const std::string file = texts.path + "/" + named.file;
  const bool table = named.file.ends_with(".csv");
  auto sheet = take(table ? read_sheet_table(found->text, file, catalogue()) : read_sheet_file(found->text, file, catalogue()), problems);
  if (!sheet) return std::nullopt;
  const std::string content = digest({"sheet-entered", job, named.id, sheet_file_text(*sheet)});
  return WrittenPayload{content, SheetEntered{named.id, std::move(*sheet), ""}};
}

}  // namespace

std::vector<std::string> sheet_files_of(std::string_view job_toml) {
  Problems none;
  std::vector<std::string> out;
  for (NamedSheet& each : read_job_file(job_toml, "", catalogue(), none).sheets) {
    if (std::find(out.begin(), out.end(), each.file) == out.end()) out.push_back(std::move(each.file));
  }
  return out;
}

Imported import_folder(const FolderTexts& texts) {
  Imported out;
  const std::string job_name = texts.path + "/job.toml";
  const std::string readings_name = texts.path + "/readings.csv";
  JobFile job = read_job_file(texts.job_toml, job_name, catalogue(), out.problems);
  if (!out.problems.empty() && job.payloads.empty()) return out;
  for (const NamedSheet& each : job.sheets) {
    if (auto sheet = sheet_of(each, texts, job.job, out.problems)) job.payloads.push_back(std::move(*sheet));
  }
  std::vector<WrittenReading> rows = read_readings_file(texts.readings_csv, readings_name, job, out.problems);
  sort_by_place(out.problems);
  if (!out.problems.empty()) return out;
  sort_rows(rows);
  std::int64_t sequence = 0;
  for (WrittenPayload& written : job.payloads) {
    out.events.push_back({written.content, job.job, kDevice, ++sequence, {}, {}, std::move(written.payload)});
  }
  for (WrittenReading& row : rows) {
    out.events.push_back({row.content, job.job, kDevice, ++sequence, row.when, row.who, ReadingTaken{std::move(row.reading)}});
  }
  return out;
}

}  // namespace fettle
