#include "server/verdict_routes.h"

#include "server/answers.h"
#include "server/page_words.h"
#include "server/verdict_page.h"

namespace fettle {

std::vector<HttpRoute> verdict_routes(Served& served) {
  const HttpHandler verdicts = [&served](const HttpRequest& request) {
    const auto recorded = served.jobs.job(request.words.at("job"));
    if (!recorded.ok()) return page_refusal(recorded.problems(), request.language);
    const auto judged = served.jobs.judged(request.words.at("job"));
    if (!judged.ok()) return page_refusal(judged.problems(), request.language);
    const WholeEngine whole = whole_engine(*recorded.value(), judged.value().get(), asking_of(request, served));
    return answered(verdict_page_json(verdict_page(*recorded.value(), *judged.value(), whole, request.language)));
  };
  return {{"GET", "/api/jobs/{job}/verdicts", false, 0, verdicts}};
}

}  // namespace fettle
