#include "wire/act_reply_json.h"

#include "wire/json_values.h"

namespace fettle {
namespace {

using json::Json;

Json reply_problems(const std::vector<SaidProblem>& problems) {
  Json out = Json::array();
  for (const SaidProblem& each : problems) out.push_back({{"code", each.code}, {"what", each.what}, {"do", each.to_do}});
  return out;
}

Json reply_text(const std::optional<std::string>& text) { return text ? Json(*text) : Json(nullptr); }

Json reply_question(const std::optional<SaidQuestion>& question) {
  if (!question) return nullptr;
  return {{"code", question->code}, {"sentence", question->sentence}, {"in_100", question->in_100}};
}

Json reply_offer(const std::optional<SaidOffer>& offer) {
  if (!offer) return nullptr;
  return {{"sentence", offer->sentence}, {"event", offer->event}, {"flag", offer->flag}, {"why", offer->why}};
}

Json reply_act(const SaidAct& act) {
  if (!act.kept) return {{"id", act.id}, {"kept", false}, {"problems", reply_problems(act.problems)}};
  return {{"id", act.id},          {"kept", true}, {"event", act.id}, {"position", act.position}, {"said", reply_text(act.said)},
          {"question", reply_question(act.question)}};
}

std::string reply_page(const Json& reply) { return reply.dump(json::kIndent) + "\n"; }

}  // namespace

std::string kept_json(const KeptReply& kept) {
  Json acts = Json::array();
  for (const SaidAct& each : kept.acts) acts.push_back(reply_act(each));
  return reply_page({{"format", "fettle-kept"}, {"version", 1}, {"position", kept.position}, {"acts", acts}});
}

std::string understood_json(const UnderstoodReply& understood) {
  return reply_page({{"format", "fettle-understood"},
               {"version", 1},
               {"understood", reply_text(understood.understood)},
               {"problems", reply_problems(understood.problems)},
               {"question", reply_question(understood.question)},
               {"offer", reply_offer(understood.offer)},
               {"spoken", reply_text(understood.spoken)}});
}

std::string new_engine_json(const std::string& job) { return reply_page({{"format", "fettle-new-engine"}, {"version", 1}, {"job", job}}); }

std::string kept_file_json(const std::string& hash, const std::string& event) {
  return reply_page({{"format", "fettle-file"}, {"version", 1}, {"hash", hash}, {"event", event}});
}

std::string accepted_event_json(const std::string& job, std::int64_t position, const std::string& device) {
  return Json{{"job", job}, {"position", position}, {"device", device}}.dump();
}

}  // namespace fettle
