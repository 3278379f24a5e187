#include "cli/strip_command.h"

#include "app/engine_file.h"
#include "app/engine_plan_page.h"
#include "app/new_engine.h"
#include "app/strip_page.h"
#include "app/text_files.h"
#include "app/whole_engine.h"
#include "cli/exit_code.h"
#include "cli/paragraph.h"
#include "cli/table.h"
#include "job/fold.h"
#include "job/folder_text.h"
#include "wire/json_text.h"

namespace fettle {
namespace {

RunResult refused_start(const Problems& problems, bool json, Language language) {
  RunResult out{kInput, {}, {}};
  if (json) out.out = problems_json(problems);
  for (const Problem& each : problems) {
    if (!json) out.error += sentence(each, language) + "\n";
  }
  return out;
}

std::string choices_of(const EnginePlanPage::Question& question) {
  if (question.choices.empty()) return std::to_string(question.least) + "–" + std::to_string(question.most);
  std::string out;
  for (const auto& each : question.choices) out += (out.empty() ? "" : ", ") + each.id;
  return out;
}

std::string plan_text(const EnginePlanPage& page, Language language) {
  std::vector<std::vector<std::string>> questions;
  for (const auto& each : page.questions) questions.push_back({each.id, each.name, each.answer, choices_of(each)});
  std::vector<std::vector<std::string>> groups;
  for (const auto& each : page.groups) groups.push_back({each.kind, each.name, std::to_string(each.parts), std::to_string(each.places)});
  return word_for("start.questions", language) + "\n\n" + columns(questions, 0) + "\n" + page.head + "\n\n" + columns(groups, 0);
}

std::vector<EventEnvelope> events_of(std::vector<Payload> payloads, const std::string& job) {
  std::vector<EventEnvelope> out;
  for (Payload& each : payloads) {
    std::string number = std::to_string(out.size());
    out.push_back({std::string(32 - number.size(), '0') + number, job, "start", static_cast<std::int64_t>(out.size()) + 1, "", "", std::move(each)});
  }
  return out;
}

/// "  ☐ compression-test  Test compression ..."
std::string line_text(const StripPage::Line& line) {
  const bool open = line.state == "to_do" || line.state == "begun";
  std::string out = std::string(open ? "[ ] " : line.state == "lost" ? "[!] " : "[x] ") + line.what + " – " + line.words + " (" + line.step + ")\n";
  if (!open) return out;
  out += "      " + line.why + "\n";
  for (const std::string& each : line.order) out += "      " + each + "\n";
  for (const std::string& each : line.cautions) out += "      ! " + each + "\n";
  return out;
}

std::string step_words(const StripPage::Group& group, Language language) {
  const std::string step = group.offset ? *group.offset : word_for("present_step." + group.step, language);
  return group.seen.empty() ? step : step + " (" + group.seen + ")";
}

}  // namespace

RunResult run_start(const StartAsked& asked, Language language) {
  if (asked.file.empty()) {
    const EnginePlanPage page = engine_plan_page({}, language).value();
    return {kFine, asked.json ? engine_plan_json(page) : plan_text(page, language), {}};
  }
  Problems problems;
  const auto text = read_text_file(asked.file, problems);
  if (!text) return refused_start(problems, asked.json, language);
  const auto act = read_engine_file(*text, asked.file);
  if (!act.ok()) return refused_start(act.problems(), asked.json, language);
  auto payloads = engine_payloads(act.value());
  if (!payloads.ok()) return refused_start(payloads.problems(), asked.json, language);
  if (asked.into.empty()) return refused_start({{"cli.start_into", {}, {verbatim("file", asked.file)}}}, asked.json, language);
  if (problems = prepare_folder(asked.into, {"job.toml", "readings.csv"}); !problems.empty()) return refused_start(problems, asked.json, language);
  const Job job = fold(events_of(std::move(payloads).value(), id_of_name(act.value().name))).job;
  const FolderTexts texts = folder_texts(job, {}, {word_for("start.heading", language)});
  for (const auto& [name, content] : {std::pair{"/job.toml", texts.job_toml}, std::pair{"/readings.csv", texts.readings_csv}}) {
    for (Problem& each : write_new_text_file(asked.into + name, content)) problems.push_back(std::move(each));
  }
  if (!problems.empty()) return refused_start(problems, asked.json, language);
  const auto parts = static_cast<std::int64_t>(job.parts.size());
  return {kFine, sentence({"start.written", {verbatim("folder", asked.into), count("parts", parts)}}, language) + "\n", {}};
}

RunResult run_strip(const Job& job, const JudgedJob* judged, bool json, Language language) {
  const WholeEngine whole = whole_engine({job, {}, {}}, judged, {});
  const StripPage page = strip_page(job, strip_list(job, judged), whole.worry, 0, language);
  if (json) return {kFine, strip_page_json(page), {}};
  RunResult out{kFine, page.name + ": " + page.head + "\n\n", {}};
  for (const auto& each : page.lines) out.out += line_text(each);
  std::vector<std::vector<std::string>> groups;
  for (const auto& each : page.groups) groups.push_back({each.name, step_words(each, language)});
  if (!groups.empty()) out.out += "\n" + word_for("strip_present", language) + "\n" + columns(groups, 0);
  for (const std::string& each : page.warnings) out.out += "\n" + each + "\n";
  if (page.worry) out.out += "\n" + sentence({"strip_worry", {verbatim("worry", *page.worry)}}, language) + "\n";
  return out;
}

}  // namespace fettle
