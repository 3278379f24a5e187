#include "wire/sheet_change_json.h"

#include "wire/json_values.h"

namespace fettle {
namespace {

using json::Json;

Json limit_json(const Limit& limit) {
  Json out = {{"side", std::string(side_name(limit.side))}, {"role", std::string(role_name(limit.role))}, {"definition", limit.definition}, {"bound", json::typed(limit.bound)}};
  if (limit.per) out["per"] = json::typed(*limit.per);
  out["open_question"] = limit.origin.sheet && limit.origin.sheet->open;
  return out;
}

Json verdict_json(const Verdict& verdict) {
  Json out = {{"word", std::string(verdict_word_name(verdict.word))}};
  if (verdict.chance) out["chance"] = json::chance(*verdict.chance);
  return out;
}

}  // namespace

std::string sheet_change_json(const std::string& sheet, const LimitsChanged& changed) {
  Json out = {{"format", "fettle-sheet-change"}, {"version", 1}, {"sheet", sheet}, {"limits", Json::array()}, {"verdicts", Json::array()}, {"states", Json::array()}};
  for (const LimitsChanged::LimitTwice& each : changed.limits) {
    Json one = {{"limit", (each.now ? each.now : each.before)->id}};
    if (each.before) one["before"] = limit_json(*each.before);
    if (each.now) one["now"] = limit_json(*each.now);
    out["limits"].push_back(std::move(one));
  }
  for (const LimitsChanged::VerdictTwice& each : changed.verdicts) {
    Json one = {{"part", each.part}, {"limit", each.limit}, {"other_word", each.other_word()}};
    if (each.before) one["before"] = verdict_json(*each.before);
    if (each.now) one["now"] = verdict_json(*each.now);
    out["verdicts"].push_back(std::move(one));
  }
  for (const LimitsChanged::StateTwice& each : changed.states) {
    out["states"].push_back({{"part", each.part}, {"before", std::string(state_word_name(each.before))}, {"now", std::string(state_word_name(each.now))}});
  }
  out["engine"] = {{"before", std::string(verdict_word_name(changed.engine_before))}, {"now", std::string(verdict_word_name(changed.engine_now))}};
  return out.dump(json::kIndent) + "\n";
}

}  // namespace fettle
