#include "cli/export_command.h"

#include "app/export_job.h"
#include "app/open_folder.h"
#include "app/text_files.h"
#include "cli/exit_code.h"
#include "job/folder.h"

namespace fettle {
namespace {

RunResult refuse(const Problems& problems, Language language) {
  RunResult out{kInput, {}, {}};
  for (const Problem& problem : problems) out.error += sentence(problem, language) + "\n";
  return out;
}

Result<ExportedJob> exported(const ExportAsked& asked) {
  const Result<FolderTexts> texts = read_folder(asked.folder);
  if (!texts.ok()) return texts.problems();
  const Imported imported = import_folder(texts.value());
  if (!imported.problems.empty()) return imported.problems;
  const DecimalMark mark = asked.decimal_mark == "comma" ? DecimalMark::comma : DecimalMark::point;
  return export_job(imported.events, {{std::nullopt, usual_accuracy()}, mark});
}

}  // namespace

RunResult run_export(const ExportAsked& asked, Language language) {
  const Result<ExportedJob> job = exported(asked);
  if (!job.ok()) return refuse(job.problems(), language);
  if (const Problems problems = prepare_folder(asked.out, exported_names()); !problems.empty()) return refuse(problems, language);
  RunResult out{kFine, {}, {}};
  for (const ExportedFile& file : job.value().files) {
    const std::string path = asked.out + "/" + file.name;
    if (const Problems problems = write_new_text_file(path, file.text); !problems.empty()) return refuse(problems, language);
    out.out += path + "\n";
  }
  for (const Message& each : job.value().left_out) out.out += sentence(each, language) + "\n";
  return out;
}

}  // namespace fettle
