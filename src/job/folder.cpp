#include "job/folder.h"

#include <algorithm>
#include <tuple>

#include "job/job_file.h"
#include "job/readings_file.h"

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

}  // namespace

Imported import_folder(const FolderTexts& texts) {
  Imported out;
  const std::string job_name = texts.path + "/job.toml";
  const std::string readings_name = texts.path + "/readings.csv";
  JobFile job = read_job_file(texts.job_toml, job_name, catalogue(), out.problems);
  if (!out.problems.empty() && job.payloads.empty()) return out;
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
