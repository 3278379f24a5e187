#include "wire/twice_judged_json.h"

#include <algorithm>

#include "catalogue/catalogue.h"

namespace fettle::json {
namespace {

Json word_and_chance(const Verdict& verdict) {
  Json out = {{"word", std::string(verdict_word_name(verdict.word))}};
  if (verdict.chance) out["chance"] = chance(*verdict.chance);
  return out;
}

Json in_doubt(const JudgedAgain::InDoubt& each, const std::vector<PartOnBench>& parts, const std::vector<Kept<Reading>>& readings, UnitId unit) {
  const auto kept = std::find_if(readings.begin(), readings.end(), [&](const auto& one) { return one.event == each.reading; });
  const Reading& reading = kept->value;
  Json out = {{"event", each.reading}, {"part", reading.part}, {"station", reading.station}, {"direction", reading.direction}, {"text", reading.quantity.text}};
  if (reading.flag != ReadingFlag::none) out["flag"] = std::string(flag_name(reading.flag));
  if (!each.figures) return out;
  const Layout& layout = find_part(parts, reading.part)->layout;
  const Dimension quantity = layout.quantity(layout.cell(*layout.find_station(reading.station), *layout.find_direction(reading.direction)));
  out["moved"] = read(each.figures->moved, quantity, unit);
  out["u_before"] = read(each.figures->u_before, quantity, unit);
  out["u_now"] = read(each.figures->u_now, quantity, unit);
  return out;
}

}  // namespace

Json side_by_side(const SideBySide& all, const Layout& layout, const Limit& limit, UnitId unit) {
  Json under = Json::array();
  for (const SideBySide::Under& each : all.under) {
    Json entry = {{"definition", each.definition}};
    entry.update(word_and_chance(each.verdict));
    if (each.verdict.as_measured) {
      entry["as_measured"] = figure(*each.verdict.as_measured, catalogue().definition(limit.definition)->dimension, unit);
      entry["where"] = where(each.verdict.measured_where, layout);
    }
    if (!each.verdict.reasons.empty()) entry["reasons"] = problems(each.verdict.reasons);
    under.push_back(std::move(entry));
  }
  return {{"limit", all.limit}, {"decides", all.decides}, {"under", std::move(under)}};
}

Json judged_again(const JudgedAgain& again, const std::vector<PartOnBench>& parts, const std::vector<Kept<Reading>>& readings, UnitId unit) {
  Json out = {{"gauge", again.found.gauge}, {"what", again.found.what}};
  if (again.found.last_good) out["last_good"] = *again.found.last_good;
  if (again.found.good_again) out["good_again"] = *again.found.good_again;
  if (again.found.shows_too_much) out["shows_too_much"] = typed(*again.found.shows_too_much);
  if (again.found.may_be_off) out["may_be_off"] = typed(*again.found.may_be_off);
  out["settings"] = again.settings;
  out["readings"] = Json::array();
  for (const JudgedAgain::InDoubt& each : again.readings) out["readings"].push_back(in_doubt(each, parts, readings, unit));
  out["parts"] = again.parts;
  out["verdicts"] = Json::array();
  for (const JudgedAgain::Twice& each : again.verdicts) {
    out["verdicts"].push_back({{"part", each.now.part},
                               {"limit", each.now.limit},
                               {"before", word_and_chance(each.before)},
                               {"now", word_and_chance(each.now)}});
  }
  out["states"] = Json::array();
  for (const JudgedAgain::StateTwice& each : again.states) {
    out["states"].push_back({{"part", each.part}, {"before", std::string(state_word_name(each.before))}, {"now", std::string(state_word_name(each.now))}});
  }
  out["engine"] = {{"before", std::string(verdict_word_name(again.engine_before))}, {"now", std::string(verdict_word_name(again.engine_now))}};
  return out;
}

}  // namespace fettle::json
