#include "server/setting_routes.h"

#include <algorithm>

#include "app/bench.h"
#include "app/part_words.h"
#include "app/round_hands.h"
#include "base/joined.h"
#include "server/answers.h"
#include "server/bench_page.h"
#include "server/gauge_words.h"
#include "server/setting_page.h"

namespace fettle {
namespace {

constexpr std::size_t kMostProofBytes = 4096;

/// The part, or one that stands for its kind. Problems: app.set_for_unknown.
Result<std::optional<PartOnBench>> gauged_part(const Job& job, const std::optional<std::string>& id) {
  if (!id) return std::optional<PartOnBench>();
  if (const Part* part = part_of(job, *id); part != nullptr && catalogue().kind(part->kind) != nullptr) return std::optional(on_bench(job, *part, catalogue()));
  if (catalogue().kind(*id) != nullptr) {
    return std::optional(on_bench(job, {*id, *id, "", {}, {StepKind::standard, {}, ""}, Condition::worn}, catalogue()));
  }
  std::vector<std::string> names;
  for (const auto& kept : job.parts) names.push_back(kept.value.id);
  for (const Kind& each : catalogue().kinds) names.push_back(each.id);
  return Problem{"app.set_for_unknown", {}, {verbatim("text", *id), verbatim("known", joined(names))}};
}

/// For the place, or for any of the part's.
bool suits_at(const GaugePreset& preset, const PartOnBench& part, std::optional<std::size_t> cell) {
  const Kind& kind = *catalogue().kind(part.part.kind);
  if (cell) return suits(preset, part, kind, *cell);
  for (std::size_t each = 0; each < part.layout.cells(); ++each) {
    if (part.layout.there(each) && suits(preset, part, kind, each)) return true;
  }
  return false;
}

/// Those that suit the place first; those that read another quantity say so.
void sort_for(std::vector<GaugeNow>& gauges, const PartOnBench& part, std::size_t cell) {
  const Kind& kind = *catalogue().kind(part.part.kind);
  for (GaugeNow& each : gauges) {
    if (!each.why_not && !can_read(*each.preset, part, kind, cell)) each.why_not = Message{"gauge_now.other_quantity", {}};
  }
  std::stable_partition(gauges.begin(), gauges.end(), [&](const GaugeNow& each) { return !each.why_not && suits(*each.preset, part, kind, cell); });
}

/// For the place, or for all of the part's, each once.
std::vector<PresetChoice> suiting(const PartOnBench& part, std::optional<std::size_t> cell, Language language) {
  std::vector<const GaugePreset*> found;
  for (std::size_t each = 0; each < part.layout.cells(); ++each) {
    if (!part.layout.there(each) || (cell && *cell != each)) continue;
    for (const GaugePreset* preset : presets_for(catalogue(), part, each)) {
      if (std::find(found.begin(), found.end(), preset) == found.end()) found.push_back(preset);
    }
  }
  std::vector<PresetChoice> out;
  for (const GaugePreset* each : found) out.push_back(preset_choice(*each, language));
  return out;
}

HttpResponse gauges(Served& served, const HttpRequest& request) {
  const auto recorded = served.jobs.job(request.words.at("job"));
  if (!recorded.ok()) return page_refusal(recorded.problems(), request.language);
  const auto part = gauged_part(recorded.value()->job, asked_for(request, "for"));
  if (!part.ok()) return page_refusal(part.problems(), request.language);
  const PartOnBench* on = part.value() ? &*part.value() : nullptr;
  auto found = gauges_now(*recorded.value(), on, asking_of(request, served));
  const auto cell = on == nullptr ? std::nullopt : cell_named(on->layout, asked_for(request, "at").value_or(""));
  if (cell) sort_for(found, *on, *cell);
  GaugePage page = gauge_page(found, shown_unit(recorded.value()->job), PageWords(request.language));
  for (std::size_t i = 0; on != nullptr && i < found.size(); ++i) page.gauges[i].suits = !found[i].why_not && suits_at(*found[i].preset, *on, cell);
  if (on != nullptr) page.suits = suiting(*on, cell, request.language);
  return answered(gauge_page_json(page));
}

HttpResponse setting_up(Served& served, const HttpRequest& request) {
  const auto recorded = served.jobs.job(request.words.at("job"));
  if (!recorded.ok()) return page_refusal(recorded.problems(), request.language);
  const SetGaugeAsked asked{asked_for(request, "gauge").value_or(""), asked_for(request, "for").value_or(""), asked_for(request, "size"), asked_for(request, "master"), asked_for(request, "set")};
  const auto screens = setting_screens(*recorded.value(), asked);
  if (!screens.ok()) return page_refusal(screens.problems(), request.language);
  return answered(setting_page_json(setting_page(*recorded.value(), screens.value(), request.language)));
}

HttpResponse proof(Served& served, const HttpRequest& request) {
  const auto recorded = served.jobs.job(request.words.at("job"));
  if (!recorded.ok()) return page_refusal(recorded.problems(), request.language);
  const auto body = read_proof_body(request.body);
  if (!body.ok()) return refused(400, body.problems(), request.language);
  const ProofBody& from = body.value();
  const auto found = prove_setting(recorded.value()->job, {{from.gauge, from.what_for, from.size, from.master, from.set}, from.shows, from.side});
  if (!found.ok()) return page_refusal(found.problems(), request.language);
  return answered(proof_json(std::string(proof_outcome_name(found.value().outcome)), proof_sentence(found.value(), shown_unit(recorded.value()->job), request.language)));
}

}  // namespace

std::vector<HttpRoute> setting_routes(Served& served) {
  return {{"GET", "/api/jobs/{job}/gauges", false, 0, [&served](const HttpRequest& request) { return gauges(served, request); }},
          {"GET", "/api/jobs/{job}/setting-up", false, 0, [&served](const HttpRequest& request) { return setting_up(served, request); }},
          {"POST", "/api/jobs/{job}/proof", false, kMostProofBytes, [&served](const HttpRequest& request) { return proof(served, request); }}};
}

}  // namespace fettle
