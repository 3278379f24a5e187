#include "cli/asked_again_command.h"

#include "app/mistakes_asked.h"
#include "app/plan_sense.h"
#include "cli/exit_code.h"
#include "cli/mistakes_text.h"

namespace fettle {

namespace {

std::string plans_text(const JudgedJob& judged, Language language) {
  std::string out;
  for (const Message& each : plan_sense(judged.job, judged.parts)) out += sentence(each, language) + "\n";
  return out;
}

}  // namespace

RunResult run_asked_again(const JudgedJob& judged, bool json, Language language) {
  const std::vector<MistakeAsked> asked = mistakes_asked(judged);
  const int code = asked.empty() ? kFine : kNotAllWithin;
  if (json) return {code, asked_again_json(asked_again_page(judged, asked, 0, language)), {}};
  return {code, plans_text(judged, language) + mistakes_asked_text(asked, judged.job, language), {}};
}

}  // namespace fettle
