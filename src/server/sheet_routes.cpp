#include "server/sheet_routes.h"

#include "app/draft_problems.h"
#include "app/enter_sheet.h"
#include "app/sheet_change.h"
#include "server/answers.h"
#include "server/job_sheets_page.h"
#include "server/page_words.h"
#include "server/sheet_page.h"
#include "wire/sheet_draft_reader.h"

namespace fettle {
namespace {

constexpr std::size_t kMostDraftBytes = 64U * 1024U;
constexpr int kBadRequest = 400;
constexpr int kNotFound = 404;

/// Keeps nothing, and hangs on no job.
HttpResponse post_sheet_proof(const HttpRequest& request) {
  const auto draft = read_draft_body(request.body);
  if (!draft.ok()) return refused(kBadRequest, draft.problems(), request.language);
  return answered(sheet_draft_json(sheet_draft_page(draft.value(), proof_draft(draft.value(), catalogue()), request.language)));
}

HttpResponse get_definitions(const HttpRequest& request) {
  const std::string& id = request.words.at("kind");
  const Kind* kind = catalogue().kind(id);
  if (kind == nullptr) return refused(kNotFound, {Problem{"limits.unknown_kind", {}, {verbatim("kind", id)}}}, request.language);
  return answered(definition_list_json(definition_list_page(catalogue(), *kind, request.language)));
}

HttpResponse get_sheets(Served& served, const HttpRequest& request) {
  const auto job = served.jobs.job(request.words.at("job"));
  if (!job.ok()) return page_refusal(job.problems(), request.language);
  return answered(job_sheets_json(job_sheets_page(*job.value(), request.language)));
}

/// Judges the job as it is and as it would be; keeps nothing. What keeps the page from being entered is told in the answer, as much of it as there is.
HttpResponse post_sheet_effect(Served& served, const HttpRequest& request) {
  const auto asked = read_effect_body(request.body);
  if (!asked.ok()) return refused(kBadRequest, asked.problems(), request.language);
  const auto recorded = served.jobs.job(request.words.at("job"));
  if (!recorded.ok()) return page_refusal(recorded.problems(), request.language);
  SheetDraftRead read = read_sheet_draft(asked.value().draft, catalogue());
  Problems problems = draft_problems(read);
  if (problems.empty()) {
    const auto changed = sheet_change(recorded.value()->job, {asked.value().sheet, std::move(read.sheet), ""}, {{}, usual_accuracy(), JudgeDetail::verdicts, nullptr, nullptr});
    if (changed.ok()) return answered(sheet_effect_json(sheet_effect_page(recorded.value()->job, changed.value(), request.language)));
    problems = changed.problems();
  }
  return answered(sheet_effect_json({said(problems, request.language), "", {}, {}, {}}));
}

}  // namespace

std::vector<HttpRoute> sheet_routes(Served& served) {
  const auto with = [&served](HttpResponse (*handle)(Served&, const HttpRequest&)) {
    return [&served, handle](const HttpRequest& request) { return handle(served, request); };
  };
  return {{"GET", "/api/jobs/{job}/sheets", false, 0, with(get_sheets)},
          {"POST", "/api/jobs/{job}/sheet-effect", false, kMostDraftBytes, with(post_sheet_effect)},
          {"POST", "/api/sheet-proof", false, kMostDraftBytes, post_sheet_proof},
          {"GET", "/api/kinds/{kind}/definitions", false, 0, get_definitions}};
}

}  // namespace fettle
