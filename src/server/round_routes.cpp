#include "server/round_routes.h"

#include "server/answers.h"
#include "server/page_words.h"
#include "server/presence.h"
#include "server/round_page.h"

namespace fettle {
namespace {

std::optional<RoundPage::Holder> holder(Served& served, const HttpRequest& request) {
  if (served.presence == nullptr) return std::nullopt;
  for (const PresentLine& each : served.presence->people(request.words.at("job"))) {
    if (each.part == request.words.at("part") && each.holds == "round") return RoundPage::Holder{each.who, each.device};
  }
  return std::nullopt;
}

}  // namespace

std::vector<HttpRoute> round_routes(Served& served) {
  const HttpHandler round = [&served](const HttpRequest& request) {
    const auto recorded = served.jobs.job(request.words.at("job"));
    if (!recorded.ok()) return page_refusal(recorded.problems(), request.language);
    const auto judged = served.jobs.judged(request.words.at("job"));
    const RoundAsked asked{request.words.at("part"), asked_for(request, "setting"), asked_for(request, "round"), asked_for(request, "second") == "1", asking_of(request, served), asked_for(request, "place")};
    const auto plan = plan_round(*recorded.value(), judged.ok() ? judged.value().get() : nullptr, asked);
    if (!plan.ok()) return page_refusal(plan.problems(), request.language);
    RoundPage page = round_page(*recorded.value(), plan.value(), request.language);
    page.held_by = holder(served, request);
    return answered(round_page_json(page));
  };
  return {{"GET", "/api/jobs/{job}/rounds/{part}", false, 0, round}};
}

}  // namespace fettle
