#include "cli/next_command.h"

#include "app/next_page.h"
#include "cli/exit_code.h"
#include "cli/judged_words.h"

namespace fettle {
namespace {

std::string advice_text(const NextPage::Advice& advice, Language language) {
  std::string out = advice.name + "\n  " + advice.doubt + "\n";
  for (const NextPage::Act& each : advice.acts) {
    out += "  * " + act_line(each, language) + "\n";
  }
  for (const NextPage::Act& each : advice.useless) {
    out += "  - " + act_line(each, language) + "\n";
  }
  return out;
}

}  // namespace

RunResult run_next(const JudgedJob& judged, bool json, Language language) {
  const Advice advice = next_reading(judged);
  const NextPage page = next_page(judged, advice, 0, language);
  RunResult out{page.parts.empty() && page.notes.empty() ? kFine : kNotAllWithin, {}, {}};
  if (json) {
    out.out = next_page_json(page);
    return out;
  }
  out.out = page.head + "\n";
  for (const std::string& each : page.notes) out.out += each + "\n";
  for (const NextPage::Advice& each : page.parts) out.out += "\n" + advice_text(each, language);
  return out;
}

}  // namespace fettle
