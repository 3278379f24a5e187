#include "server/engine_routes.h"

#include "app/engine_plan_page.h"
#include "app/mistakes_asked.h"
#include "app/next_page.h"
#include "app/strip_page.h"
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
  const HttpHandler strip = [&served](const HttpRequest& request) {
    const auto recorded = served.jobs.job(request.words.at("job"));
    if (!recorded.ok()) return page_refusal(recorded.problems(), request.language);
    const auto judged = served.jobs.judged(request.words.at("job"));
    const JudgedJob* known = judged.ok() ? judged.value().get() : nullptr;
    const WholeEngine whole = whole_engine(*recorded.value(), known, asking_of(request, served));
    const Job& job = recorded.value()->job;
    return answered(strip_page_json(strip_page(job, strip_list(job, known), whole.worry, position_of(*recorded.value()), request.language)));
  };
  const HttpHandler next = [&served](const HttpRequest& request) {
    const auto recorded = served.jobs.job(request.words.at("job"));
    if (!recorded.ok()) return page_refusal(recorded.problems(), request.language);
    const auto judged = served.jobs.judged(request.words.at("job"));
    if (!judged.ok()) return page_refusal(judged.problems(), request.language);
    const JudgedJob& known = *judged.value();
    return answered(next_page_json(next_page(known, next_reading(known), position_of(*recorded.value()), request.language)));
  };
  const HttpHandler again = [&served](const HttpRequest& request) {
    const auto recorded = served.jobs.job(request.words.at("job"));
    if (!recorded.ok()) return page_refusal(recorded.problems(), request.language);
    const OpenJobs::JudgedAt judged = served.jobs.judged_at(request.words.at("job"));
    if (!judged.judged.ok()) return page_refusal(judged.judged.problems(), request.language);
    const JudgedJob& of = *judged.judged.value();
    return answered(asked_again_json(asked_again_page(of, mistakes_asked(of), judged.end, request.language)));
  };
  const HttpHandler plan = [](const HttpRequest& request) {
    const auto page = engine_plan_page(answers_in(asked_for(request, "answers").value_or("")), request.language);
    if (!page.ok()) return page_refusal(page.problems(), request.language);
    return answered(engine_plan_json(page.value()));
  };
  return {{"GET", "/api/engine-plan", false, 0, plan}, {"GET", "/api/jobs/{job}/strip", false, 0, strip},
          {"GET", "/api/jobs/{job}/next", false, 0, next}, {"GET", "/api/jobs/{job}/asked-again", false, 0, again},
          {"GET", "/api/jobs/{job}", false, 0, engine}, {"GET", "/api/jobs/{job}/thumb", false, 0, thumb}, {"GET", "/api/jobs/{job}/events", false, 0, events}};
}

}  // namespace fettle
