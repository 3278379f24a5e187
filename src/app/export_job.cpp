#include "app/export_job.h"

#include "app/readings_table.h"
#include "app/verdicts_table.h"
#include "job/fold.h"
#include "job/folder_text.h"
#include "text/sentence.h"

namespace fettle {
namespace {

/// What this job's folder leaves out stands on top of it, behind what every folder leaves out, in the language of its keys.
std::string with_left_out(const std::string& job_toml, const std::vector<Message>& left_out) {
  std::string lines;
  for (const Message& each : left_out) {
    std::string line = sentence(each, Language::english);
    for (char& c : line) {
      if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F) c = '?';  // no comment may hold them
    }
    lines += "# Left out: " + line + "\n";
  }
  return lines + job_toml;
}

}  // namespace

std::vector<std::string> exported_names() {
  return {"job.toml",      "readings.csv",         "readings-table.csv", "verdicts-table.csv", "readings.json",
          "verdicts.json", "readings.schema.json", "verdicts.schema.json"};
}

Result<ExportedJob> export_job(const std::vector<EventEnvelope>& events, const ExportOptions& options) {
  Result<WrittenFolder> folder = written_folder(events);
  if (!folder.ok()) return folder.problems();
  if (!folder.value().refused.empty()) return folder.value().refused;
  const Result<JudgedJob> judged = judge_job(fold(events).job, options.judge);
  if (!judged.ok()) return judged.problems();
  const DataTable readings = readings_table(events, judged.value());
  const DataTable verdicts = verdicts_table(judged.value());
  WrittenFolder written = std::move(folder).value();
  const std::vector<std::string> texts = {with_left_out(written.texts.job_toml, written.left_out),
                                          written.texts.readings_csv,
                                          data_table_text(readings, options.decimal_mark),
                                          data_table_text(verdicts, options.decimal_mark),
                                          data_table_json(readings, "readings"),
                                          data_table_json(verdicts, "verdicts"),
                                          schema_text("readings"),
                                          schema_text("verdicts")};
  ExportedJob out{{}, std::move(written.left_out)};
  const std::vector<std::string> names = exported_names();
  for (std::size_t i = 0; i < names.size(); ++i) out.files.push_back({names[i], texts[i]});
  for (FolderSheet& each : written.texts.sheets) out.files.push_back({each.file, std::move(each.text)});
  return out;
}

}  // namespace fettle
