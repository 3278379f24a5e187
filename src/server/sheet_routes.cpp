#include "server/sheet_routes.h"

#include "server/answers.h"
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

}  // namespace

std::vector<HttpRoute> sheet_routes(Served&) {
  return {{"POST", "/api/sheet-proof", false, kMostDraftBytes, post_sheet_proof}, {"GET", "/api/kinds/{kind}/definitions", false, 0, get_definitions}};
}

}  // namespace fettle
