#include "cli/gauge_study_command.h"

#include "app/open_study.h"
#include "cli/exit_code.h"
#include "cli/gauge_study_text.h"
#include "cli/paragraph.h"
#include "job/job_text.h"
#include "wire/gauge_study_json.h"
#include "wire/json_text.h"

namespace fettle {

RunResult run_gauge_study(const GaugeStudyAsked& asked, Language language) {
  const auto opened = open_study(asked.file, asked.person.empty() ? std::nullopt : std::optional(asked.person));
  if (!opened.ok()) {
    RunResult out{kInput, {}, {}};
    if (asked.json) out.out = problems_json(opened.problems());
    for (const Problem& each : opened.problems()) {
      if (!asked.json) out.error += sentence(each, language) + "\n";
    }
    return out;
  }
  const OpenedStudy& study = opened.value();
  if (asked.json) return {kFine, gauge_study_json(study.study, study.for_job), {}};
  const std::string lines = study.for_job ? study_text(*study.for_job) : paragraph("", word_for("study.alike", language));
  if (asked.lines) return {kFine, study.for_job ? lines : std::string(), study.for_job ? std::string() : lines};
  std::string out = gauge_study_text(study.study, language);
  out += "\n" + (study.for_job ? word_for("study.lines_title", language) + "\n" : std::string()) + lines;
  return {kFine, std::move(out), {}};
}

}  // namespace fettle
