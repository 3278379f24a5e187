#include "server/engine_routes.h"

#include "app/thumb_page.h"
#include "server/answers.h"
#include "server/engine_page.h"
#include "server/page_words.h"

namespace fettle {
namespace {

constexpr std::size_t kActsShown = 50;

}  // namespace

std::vector<HttpRoute> engine_routes(Served& served) {
  const HttpHandler engine = [&served](const HttpRequest& request) {
    const auto recorded = served.jobs.job(request.words.at("job"));
    if (!recorded.ok()) return page_refusal(recorded.problems(), request.language);
    const auto judged = served.jobs.judged(request.words.at("job"));
    const Asking asking = asking_of(request, served);
    const WholeEngine whole = whole_engine(*recorded.value(), judged.ok() ? judged.value().get() : nullptr, asking);
    return answered(engine_page_json(engine_page(*recorded.value(), whole, asking, request.language)));
  };
  const HttpHandler events = [&served](const HttpRequest& request) {
    const auto recorded = served.jobs.job(request.words.at("job"));
    if (!recorded.ok()) return page_refusal(recorded.problems(), request.language);
    return answered(acts_done_json(acts_done_page(acts_done(*recorded.value(), kActsShown), request.language)));
  };
  const HttpHandler thumb = [&served](const HttpRequest& request) {
    const auto recorded = served.jobs.job(request.words.at("job"));
    if (!recorded.ok()) return page_refusal(recorded.problems(), request.language);
    const Job& job = recorded.value()->job;
    return answered(thumb_offers_json(thumb_offers_page(job, thumb_offers(job, catalogue()), request.language)));
  };
  return {{"GET", "/api/jobs/{job}", false, 0, engine}, {"GET", "/api/jobs/{job}/thumb", false, 0, thumb}, {"GET", "/api/jobs/{job}/events", false, 0, events}};
}

}  // namespace fettle
