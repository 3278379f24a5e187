#include "cli/export_command.h"

#include "app/export_job.h"
#include "app/text_files.h"
#include "cli/exit_code.h"

namespace fettle {
namespace {

RunResult refuse(const Problems& problems, Language language) {
  RunResult out{kInput, {}, {}};
  for (const Problem& problem : problems) out.error += sentence(problem, language) + "\n";
  return out;
}

}  // namespace

RunResult run_export(const ExportAsked& asked, const std::vector<EventEnvelope>& events, Language language) {
  const DecimalMark mark = asked.decimal_mark == "comma" ? DecimalMark::comma : DecimalMark::point;
  const Result<ExportedJob> job = export_job(events, {{std::nullopt, usual_accuracy()}, mark});
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
