#include "server/act_routes.h"

#include <algorithm>

#include "app/question_words.h"
#include "app/attach_file.h"
#include "app/do_acts.h"
#include "app/example_engine.h"
#include "app/new_engine.h"
#include "app/second_reader.h"
#include "server/answers.h"
#include "server/page_words.h"
#include "wire/act_head.h"
#include "wire/act_reader.h"
#include "wire/act_reply_json.h"

namespace fettle {
namespace {

constexpr std::size_t kMostActBytes = 64U * 1024U;

constexpr int kBadRequest = 400;
constexpr int kNotFound = 404;

std::optional<SaidQuestion> said_question(const std::optional<ReadingQuestion>& question, Language language) {
  if (!question) return std::nullopt;
  return SaidQuestion{question->code, sentence(question->sentence, language), in_hundred(question->chance)};
}

std::optional<std::string> said_text(const std::optional<Message>& message, Language language) {
  return message ? std::optional(sentence(*message, language)) : std::nullopt;
}

HttpResponse post_acts(Served& served, const HttpRequest& request) {
  const auto acts = read_acts(request.body);
  if (!acts.ok()) return refused(kBadRequest, acts.problems(), request.language);
  const std::string& job = request.words.at("job");
  const auto done = do_acts(served.jobs, job, acts.value());
  if (!done.ok()) return page_refusal(done.problems(), request.language);
  KeptReply reply{done.value().position, {}};
  std::optional<std::string> device;
  for (std::size_t i = 0; i < done.value().acts.size(); ++i) {
    const ActDone& each = done.value().acts[i];
    if (each.fresh) device = acts.value()[i].head.device;
    reply.acts.push_back({each.id, each.kept, each.position, said_text(each.said, request.language), said_question(each.question, request.language),
                          said(each.problems, request.language)});
  }
  if (device) served.live.tell(job, std::nullopt, "accepted", accepted_event_json(job, reply.position, *device));
  return answered(kept_json(reply));
}

HttpResponse post_understood(Served& served, const HttpRequest& request) {
  const auto act = read_understood(request.body);
  if (!act.ok()) return refused(kBadRequest, act.problems(), request.language);
  const auto job = served.jobs.job(request.words.at("job"));
  if (!job.ok()) return page_refusal(job.problems(), request.language);
  const std::string who = asked_for(request, "who").value_or("");
  const bool second = asked_for(request, "second").value_or("") == "1";
  if (second && who.empty()) return page_refusal({Problem{"app.round_nobody", {}, {}}}, request.language);
  const Understood understood =
      second ? understand(for_second_reader(*job.value(), act.value().part, who), act.value()) : understand(job.value()->job, act.value());
  UnderstoodReply reply{said_text(understood.understood, request.language), said(understood.problems, request.language),
                        said_question(understood.question, request.language), std::nullopt, said_text(understood.spoken, request.language)};
  if (const auto& offer = understood.offer) {
    reply.offer = SaidOffer{sentence(offer->sentence, request.language), offer->event, "mistake", sentence(offer->why, request.language)};
  }
  return answered(understood_json(reply));
}

HttpResponse job_made(Served& served, const std::string& job, const std::string& device) {
  (void)served.jobs.job(job);  // open from now on, so that it is listed
  const auto last = served.store.last(job);
  served.live.tell(job, std::nullopt, "accepted", accepted_event_json(job, last ? last->position : 0, device));
  return answered(new_engine_json(job));
}

HttpResponse post_job(Served& served, const HttpRequest& request) {
  const auto act = read_new_engine(request.body);
  if (!act.ok()) return refused(kBadRequest, act.problems(), request.language);
  const auto job = new_engine(served.store, act.value());
  if (!job.ok()) return page_refusal(job.problems(), request.language);
  return job_made(served, job.value(), act.value().head.device);
}

HttpResponse post_example(Served& served, const HttpRequest& request) {
  const auto job = take_example_in(served.store, {"", served.clock.now()});
  if (!job.ok()) return page_refusal(job.problems(), request.language);
  return job_made(served, job.value(), request.device.value_or(""));
}

HttpResponse post_file(Served& served, const HttpRequest& request) {
  const std::string& job = request.words.at("job");
  const std::string who = asked_for(request, "who").value_or("");
  if (const Problems wrong = who.empty() ? Problems() : problems_of_name("who", who); !wrong.empty()) return refused(kBadRequest, wrong, request.language);
  const ToAttach what{request.body, asked_for(request, "name").value_or(""), asked_for(request, "part"), asked_for(request, "note").value_or("")};
  const auto attached = while_overtaken([&]() -> Result<Attached> {
    const auto recorded = served.jobs.job(job);
    if (!recorded.ok()) return recorded.problems();
    return attach_file(served.store, *recorded.value(), what, {who, served.clock.now()});
  });
  if (!attached.ok()) return page_refusal(attached.problems(), request.language);
  (void)served.jobs.job(job);  // as it is now, so that it is listed
  const auto last = served.store.last(job);
  served.live.tell(job, std::nullopt, "accepted", accepted_event_json(job, last ? last->position : 0, request.device.value_or("")));
  return answered(kept_file_json(attached.value().hash, attached.value().event));
}

/// Only what hangs on the job is given: a hash alone opens nothing.
HttpResponse get_file(Served& served, const HttpRequest& request, bool thumbnail) {
  const auto job = served.jobs.job(request.words.at("job"));
  if (!job.ok()) return page_refusal(job.problems(), request.language);
  const std::string& hash = request.words.at("hash");
  const auto& files = job.value()->job.files;
  const bool of_job = std::any_of(files.begin(), files.end(), [&](const auto& each) { return each.value.hash == hash; });
  const auto file = of_job ? served.store.file(hash) : std::nullopt;
  if (!file || (thumbnail && file->thumbnail.empty())) {
    return refused(kNotFound, {Problem{"acts.no_such_file", {}, {verbatim("hash", hash)}}}, request.language);
  }
  // The bytes behind a hash never change.
  HttpResponse out{200, thumbnail ? "image/jpeg" : file->type, {{"Cache-Control", "private, max-age=31536000, immutable"}}, thumbnail ? file->thumbnail : file->bytes};
  return out;
}

}  // namespace

std::vector<HttpRoute> act_routes(Served& served) {
  const auto with = [&served](HttpResponse (*handle)(Served&, const HttpRequest&)) {
    return [&served, handle](const HttpRequest& request) { return handle(served, request); };
  };
  return {{"POST", "/api/jobs/{job}/acts", true, kMostActBytes, with(post_acts)},
          {"POST", "/api/jobs/{job}/understood", false, kMostActBytes, with(post_understood)},
          {"POST", "/api/jobs", true, kMostActBytes, with(post_job)},
          {"POST", "/api/example", true, kMostActBytes, with(post_example)},
          {"POST", "/api/jobs/{job}/files", true, static_cast<std::size_t>(kMostFileBytes), with(post_file)},
          {"GET", "/api/jobs/{job}/files/{hash}", false, kMostActBytes, [&served](const HttpRequest& request) { return get_file(served, request, false); }},
          {"GET", "/api/jobs/{job}/files/{hash}/thumbnail", false, kMostActBytes,
           [&served](const HttpRequest& request) { return get_file(served, request, true); }}};
}

}  // namespace fettle
